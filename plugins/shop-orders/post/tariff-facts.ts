/** What the user writes down of a carrier's prices. No carrier's prices are built in. */
import { z } from 'zod';
import { day, handle, money, name } from '../../../server/contract/studio/values.ts';
import { country, FORMATS, grams } from '../values.ts';

const service = z.strictObject({
  id: handle,
  name,
  /** A zone of this table. */
  zone: handle,
  /** UPU letter formats that it takes; 'parcel' is whatever fits none of them. */
  formats: z.array(z.enum([...FORMATS, 'parcel'])).min(1),
  tracked: z.boolean(),
  /** Most that is paid for a loss. */
  compensation: money.optional(),
  /** Price by weight: up to so many grams. */
  steps: z
    .array(z.strictObject({ upTo: grams, price: money }))
    .min(1)
    .max(100),
});
export type Service = z.infer<typeof service>;

export const tariffFacts = z
  .strictObject({
    tariff: handle,
    name,
    /** It holds from this day, until one of the same name with a later day. */
    from: day,
    zones: z
      .array(
        z.strictObject({
          id: handle,
          name,
          /** 'rest': every country that no other zone names. */
          countries: z.union([z.array(country).min(1), z.literal('rest')]),
        }),
      )
      .min(1)
      .max(50),
    services: z.array(service).min(1).max(200),
  })
  .superRefine((facts, context) => {
    const zones = new Set(facts.zones.map((zone) => zone.id));
    facts.services.forEach((one, at) => {
      if (!zones.has(one.zone))
        context.addIssue({
          code: 'custom',
          path: ['services', at, 'zone'],
          message: `one of the table’s zones: ${[...zones].join(', ')}`,
        });
      if (one.steps.some((step, n) => n > 0 && step.upTo <= one.steps[n - 1]!.upTo))
        context.addIssue({
          code: 'custom',
          path: ['services', at, 'steps'],
          message: 'weights that rise from step to step',
        });
    });
  });
export type TariffFacts = z.infer<typeof tariffFacts>;
