/** What is recorded of firings. */
import { z } from 'zod';
import { event } from '../plugin.ts';
import { textRef } from '../text.ts';
import { cone, handle, id, name, pieceId, place, role } from './values.ts';

/*
 * A firing's own steps follow its packing, and a glaze firing follows the bisque: ranks say where an
 * event stands within a day when only the day is known.
 */
type InFiring = { role: z.infer<typeof role> };
const firingBase = { bisque: 30, glaze: 50, lustre: 60, other: 60 } as const;
const inFiring = (step: number) => (data: InFiring) => firingBase[data.role] + step;

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
