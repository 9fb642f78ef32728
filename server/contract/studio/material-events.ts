/** What is recorded of clays, glazes, schedules, kilns, people and the studio itself. */
import { z } from 'zod';
import { event } from '../plugin.ts';
import { textRef } from '../text.ts';
import { cone, day, handle, id, money, name, role, segment, word } from './values.ts';

export const sha256 = z.string().regex(/^[0-9a-f]{64}$/, 'a SHA-256 of 64 hexadecimal figures');
/** What a picture shows of a piece, where it is not the piece as a whole. */
export const seen = {
  fault: word.optional(),
  zone: word.optional(),
  repair: word.optional(),
  /** As it was before or after the repair. */
  shows: z.enum(['before', 'after']).optional(),
};

const material = { id: handle, name, note: textRef.optional() };
const clayFacts = {
  ...material,
  coneLow: cone.optional(),
  coneHigh: cone.optional(),
  shrinkage: z.number().min(0).max(0.4).optional(),
};
const glazeFacts = {
  ...material,
  cone: cone.optional(),
  costly: z.boolean().optional(),
  fluid: z.boolean().optional(),
  cost: money.optional(),
};
const kilnFacts = {
  ...material,
  shape: z.enum(['round', 'oval', 'many-sided', 'rectangular']).optional(),
  width: z.number().positive().optional(),
  depth: z.number().positive().optional(),
  height: z.number().positive().optional(),
  shelves: z.number().int().min(1).max(40).optional(),
  power: z.number().positive().optional(),
};
const scheduleFacts = {
  ...material,
  role: role.optional(),
  cone: cone.optional(),
  segments: z.array(segment).optional(),
};

export const materialEvents = {
  'clay.added': event({ rank: 0, shape: z.strictObject(clayFacts) }),
  'clay.changed': event({ rank: 1, shape: z.strictObject(clayFacts) }),
  'clay.batch-opened': event({
    rank: 2,
    shape: z.strictObject({ id: handle, batch: name, note: textRef.optional() }),
  }),
  'glaze.added': event({ rank: 0, shape: z.strictObject(glazeFacts) }),
  'glaze.changed': event({ rank: 1, shape: z.strictObject(glazeFacts) }),
  'glaze.batch-mixed': event({
    rank: 2,
    /** Dry weight in g, density in g/ml. */
    shape: z.strictObject({
      id: handle,
      batch: name,
      dryWeight: z.number().positive().optional(),
      density: z.number().positive().optional(),
      note: textRef.optional(),
    }),
  }),
  'schedule.written': event({ rank: 0, shape: z.strictObject(scheduleFacts) }),
  'kiln.added': event({ rank: 0, shape: z.strictObject(kilnFacts) }),
  'kiln.changed': event({ rank: 1, shape: z.strictObject(kilnFacts) }),
  'word.added': event({
    rank: 0,
    shape: z.strictObject({ kind: z.enum(['fault', 'repair', 'zone']), id: word, name }),
  }),
  'person.added': event({ rank: 0, shape: z.strictObject({ person: id, name: textRef }) }),
  'person.forgotten': event({ rank: 99, shape: z.strictObject({ person: id }) }),
  'studio.set': event({
    rank: 0,
    shape: z.strictObject({
      studio: name,
      zone: z.string().min(1).max(64),
      currency: z.string().regex(/^[A-Z]{3}$/),
      yearStart: z.string().regex(/^\d\d-\d\d$/),
    }),
  }),
  'file.attached': event({
    rank: 95,
    /** Version 2 says more of what is seen; all that version 1 said still holds. */
    upcasts: [(data) => data],
    files: ({ sha256 }) => [sha256],
    shape: z.strictObject({
      to: z.string().max(80),
      sha256,
      type: z.string().max(80),
      bytes: z.number().int().min(1),
      taken: day.optional(),
      /** Pixels. */
      width: z.number().int().min(1).optional(),
      height: z.number().int().min(1).optional(),
      ...seen,
    }),
  }),
} as const;
