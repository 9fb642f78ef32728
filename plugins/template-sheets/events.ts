/** What is recorded of templates that are kept. Names are for good; a shape grows by an upcast. */
import { z } from 'zod';
import { event } from '../../server/contract/plugin.ts';
import type { Recorded } from '../../server/contract/streams.ts';
import { count, handle, name } from '../../server/contract/studio/values.ts';
import { textRef } from '../../server/contract/text.ts';
import { spec } from './spec/spec.ts';

/** What a template is, whole: a change says all of it anew. */
export const drawn = z.strictObject({
  template: handle,
  name,
  /** Measures in mm, fired where it names a shrinkage; or a drawing. */
  spec,
  /** The clay whose shrinkage it was made for. */
  clay: handle.optional(),
  /** How to use it, in the maker's own words. */
  howTo: textRef.optional(),
  /** What a buyer may do with it. */
  licence: z.string().trim().min(1).max(200).optional(),
});

export const givenOut = z.strictObject({
  template: handle,
  /** Which version of it, from 1. */
  version: z.int().min(1),
  paper: z.string().min(2).max(40),
  /** Sent as a file, or printed here. */
  how: z.enum(['download', 'printed']),
  count,
  /** Number of the order it went with. */
  order: z.string().trim().min(1).max(60).optional(),
});

export const templateEvents = {
  'template.drawn': event({ rank: 0, shape: drawn }),
  'template.changed': event({ rank: 1, shape: drawn }),
  'template.given-out': event({ rank: 2, shape: givenOut }),
  'template.put-away': event({ rank: 3, shape: z.strictObject({ template: handle }) }),
};
export type TemplateData<N extends keyof typeof templateEvents> = z.infer<
  (typeof templateEvents)[N]['shape']
>;

export const records = <N extends keyof typeof templateEvents>(
  event: N,
  data: TemplateData<N>,
): Recorded => ({
  name: event,
  streams: [`template:${data.template}`],
  data,
});
