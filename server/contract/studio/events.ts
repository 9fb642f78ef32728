/** The studio's own events: names are fixed, shapes may grow by version. */
import { z } from 'zod';
import { event } from '../plugin.ts';
import { textRef } from '../text.ts';
import { LEAVINGS, STAGES } from '../trade.ts';
import {
  cone,
  count,
  day,
  furniture,
  grade,
  handle,
  id,
  layer,
  mark,
  money,
  name,
  owner,
  pieceId,
  place,
  role,
  segment,
  size,
  word,
} from './values.ts';

/*
 * Ranks: where an event stands within a day when only the day is known.
 * A firing's own steps follow its packing, and a glaze firing follows the bisque.
 */
type InFiring = { role: z.infer<typeof role> };
const firingBase = { bisque: 30, glaze: 50, lustre: 60, other: 60 } as const;
const inFiring = (step: number) => (data: InFiring) => firingBase[data.role] + step;

/** A fault as it goes along with a part split off a lot. */
export const carriedFault = z.strictObject({ entry: z.number().int(), count });

const splitPart = z.strictObject({
  piece: pieceId,
  count,
  mark: mark.optional(),
  faults: z.array(carriedFault).optional(),
});

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

export const pieceEvents = {
  'piece.begun': event({
    rank: 0,
    shape: z.strictObject({
      piece: pieceId,
      count,
      mark: mark.optional(),
      form: name.optional(),
      clay: handle.optional(),
      owner,
      maker: id.optional(),
      how: z.enum(['thrown', 'slab-built', 'coiled', 'pressed', 'cast']).optional(),
      size: size.optional(),
      price: money.optional(),
      secondPrice: money.optional(),
    }),
  }),
  'piece.moved-on': event({
    rank: 10,
    shape: z.strictObject({ piece: pieceId, stage: z.enum(STAGES), count }),
  }),
  'lot.split': event({
    rank: 5,
    shape: z.strictObject({ piece: pieceId, into: z.array(splitPart).min(1), why: textRef.optional() }),
  }),
  'glaze.applied': event({
    rank: 40,
    shape: z.strictObject({
      piece: pieceId,
      zone: word.optional(),
      layers: z.array(layer).min(1),
      wipedBack: z.boolean().optional(),
      /** Said by the potter: it had been fired or dried, and that was not noted. */
      stagesNotNoted: z.boolean().optional(),
    }),
  }),
  'fault.found': event({
    rank: 70,
    shape: z.strictObject({
      piece: pieceId,
      firing: id.optional(),
      kind: word,
      zone: word.optional(),
      count,
      /** Largest extent in mm. */
      size: z.number().positive().max(2_000).optional(),
      severity: z.enum(['slight', 'plain', 'bad']).optional(),
      note: textRef.optional(),
    }),
  }),
  'repair.decided': event({
    rank: 72,
    shape: z.strictObject({
      piece: pieceId,
      count,
      method: word,
      fault: word.optional(),
      note: textRef.optional(),
    }),
  }),
  'repair.done': event({
    rank: 74,
    shape: z.strictObject({
      piece: pieceId,
      count,
      method: word,
      fault: word.optional(),
      note: textRef.optional(),
    }),
  }),
  'piece.graded': event({
    rank: 80,
    shape: z.strictObject({
      piece: pieceId,
      firing: id.optional(),
      first: z.number().int().min(0),
      second: z.number().int().min(0),
      waster: z.number().int().min(0),
      price: money.optional(),
    }),
  }),
  'piece.priced': event({
    rank: 85,
    shape: z.strictObject({ piece: pieceId, price: money.optional(), secondPrice: money.optional() }),
  }),
  'piece.left': event({
    rank: 90,
    shape: z.strictObject({
      piece: pieceId,
      count,
      how: z.enum(LEAVINGS),
      to: id.optional(),
      price: money.optional(),
      note: textRef.optional(),
    }),
  }),
  'piece.returned': event({
    /** Early in the day: what is found and done after a return follows it. */
    rank: 8,
    shape: z.strictObject({
      piece: pieceId,
      count,
      from: z.enum(['post', 'gallery', 'owner']),
      note: textRef.optional(),
    }),
  }),
  'piece.noted': event({ rank: 95, shape: z.strictObject({ piece: pieceId, note: textRef }) }),
  'piece.recounted': event({
    rank: 4,
    shape: z.strictObject({ piece: pieceId, count, why: textRef.optional() }),
  }),
  'piece.owner-changed': event({ rank: 7, shape: z.strictObject({ piece: pieceId, owner }) }),
} as const;

export const firingEvents = {
  'firing.packed': event({
    /** Packed as noted after the kiln was drawn: it stands after the drawing. */
    rank: (data: InFiring & { afterwards?: string }) => firingBase[data.role] + (data.afterwards ? 5 : 0),
    shape: z.strictObject({
      firing: id,
      label: name.optional(),
      kiln: handle,
      schedule: handle.optional(),
      role,
      places: z.array(place).min(1),
      stagesNotNoted: z.boolean().optional(),
      /** Noted only after the firing had ended or been drawn; the pieces went through it. */
      afterwards: z.enum(['ended', 'drawn']).optional(),
    }),
  }),
  'firing.unpacked': event({
    rank: inFiring(0.5),
    shape: z.strictObject({ firing: id, role, pieces: z.array(pieceId).min(1) }),
  }),
  'firing.lit': event({ rank: inFiring(1), shape: z.strictObject({ firing: id, role }) }),
  'firing.read': event({
    rank: inFiring(2),
    shape: z.strictObject({
      firing: id,
      role,
      /** Minutes since lighting and °C. */
      readings: z
        .array(z.tuple([z.number(), z.number().min(-50).max(1_500)]))
        .min(1)
        .max(5_000),
    }),
  }),
  'firing.abandoned': event({
    rank: inFiring(3),
    shape: z.strictObject({ firing: id, role, why: textRef.optional() }),
  }),
  'firing.ended': event({
    rank: inFiring(3),
    shape: z.strictObject({ firing: id, role, top: z.number().min(0).max(1_500).optional() }),
  }),
  'firing.drawn': event({
    rank: inFiring(4),
    shape: z.strictObject({
      firing: id,
      role,
      cones: z
        .array(
          z.strictObject({
            shelf: z.number().int().min(1).max(40),
            cone,
            bend: z.enum(['standing', 'leaning', 'down', 'flat']),
          }),
        )
        .optional(),
      note: textRef.optional(),
    }),
  }),
} as const;

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
    shape: z.strictObject({
      to: z.string().max(80),
      sha256: z.string().regex(/^[0-9a-f]{64}$/),
      type: z.string().max(80),
      bytes: z.number().int().min(1),
      taken: day.optional(),
    }),
  }),
} as const;

export const studioEvents = { ...pieceEvents, ...firingEvents, ...materialEvents };
export { furniture, grade };

type Shapes = typeof studioEvents;
export type StudioEventName = keyof Shapes;
/** The data of one of the studio's events. */
export type StudioData<Name extends StudioEventName> = z.infer<Shapes[Name]['shape']>;
