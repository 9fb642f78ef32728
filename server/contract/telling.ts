/** What a plugin can add to Today and to the calendar, by marking a report with `tells`. */
import { z } from 'zod';
import { day, happenedAt } from './studio/values.ts';

export type Telling = 'waiting' | 'dates';

const person = z.union([z.string(), z.looseObject({})]);
/** Address on the page, where it is done. */
const to = z.string().regex(/^\/[^/]/, 'an address of the page, such as /ware/…');

/** One thing that waits for the potter. */
export const waitingRow = z.object({
  /** Which heading it stands under; headings of one id are one. */
  does: z.string().regex(/^[a-z]+(-[a-z]+)*$/),
  /** The heading in words, where the page has none of its own for it. */
  title: z.string().min(1),
  /** Headings stand in this order: 10 is a kiln to draw, 90 what can wait longest. */
  order: z.number().int().min(0).max(100),
  what: z.string().min(1),
  /** A few more words: which kiln, which order. */
  where: z.string().nullish(),
  mark: z.string().nullish(),
  pieces: z.number().int().min(0).nullish(),
  /** Whose; the host fills in the name. */
  person: person.nullish(),
  since: happenedAt.nullish(),
  due: day.nullish(),
  /** Until this moment it is usually not yet time. */
  usually: z.iso.datetime({ offset: true }).nullish(),
  to,
});
export type WaitingRow = z.infer<typeof waitingRow>;

/** One day or span of the calendar. */
export const datedRow = z.object({
  /** The same for ever, and no other row's. */
  uid: z.string().min(1).max(200),
  what: z.string().min(1),
  /** A day, or a moment with its offset. */
  from: happenedAt,
  /** The last day, or the moment it ends; a day or moment without length when left out. */
  until: happenedAt.nullish(),
  where: z.string().nullish(),
  note: z.string().nullish(),
  /** Goes up whenever anything of it changes. */
  changed: z.number().int().min(0),
  to,
});
export type DatedRow = z.infer<typeof datedRow>;
