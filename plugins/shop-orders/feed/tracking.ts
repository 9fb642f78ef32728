/** What the post says of parcels, and what is taken to have arrived when nobody says anything. */
import { parse } from 'csv-parse/sync';
import { z } from 'zod';
import { NoAnswer, type PluginJob, type Went, type Work } from '../../../server/contract/job.ts';
import { readItemNumber } from '../post/s10.ts';
import { SETTINGS, shopKind } from '../state/shop.ts';

/** One thing that the post says of one parcel. Any source gives these. */
export interface Tracked {
  readonly number: string;
  readonly on: string;
  readonly said: string;
  readonly arrived: boolean;
}

const row = z.looseObject({
  number: z.string(),
  date: z.iso.date(),
  status: z.string().trim().min(1).max(200),
});
const ARRIVED = /^(arrived|delivered)$/i;

/** Reads a CSV with the headings number, date, status, or a JSON list of the same. What does not fit is counted. */
export function readTracking(text: string): { tracked: Tracked[]; unread: number } {
  const found: unknown = /^\s*[[{]/.test(text)
    ? JSON.parse(text)
    : parse(text, {
        columns: (heads: string[]) => heads.map((head) => head.trim().toLowerCase()),
        skip_empty_lines: true,
        relax_column_count: true,
        trim: true,
        bom: true,
      });
  const rows = Array.isArray(found) ? found : [];
  const tracked = rows.flatMap((one): Tracked[] => {
    const read = row.safeParse(one);
    const number = read.success ? readItemNumber(read.data.number) : undefined;
    if (!read.success || !number || 'wrong' in number) return [];
    const { date: on, status: said } = read.data;
    return [{ number: number.number, on, said, arrived: ARRIVED.test(said) }];
  });
  return { tracked, unread: rows.length - tracked.length };
}

async function note(work: Work, { number, on, said, arrived }: Tracked): Promise<boolean> {
  const [parcel] = await work.report('parcels', { number });
  if (!parcel || typeof parcel.posted !== 'string' || on < parcel.posted || on > work.today) return false;
  if (arrived && parcel.state === 'arrived') return false;
  const id = parcel.parcel as string;
  const why = await work.record(
    arrived
      ? {
          command: 'parcel.arrive',
          input: { parcel: id, told: 'tracking' },
          happenedAt: on,
          knownBy: ['arrive', id],
        }
      : {
          command: 'parcel.track',
          input: { parcel: id, said },
          happenedAt: on,
          knownBy: ['track', id, on, said],
        },
  );
  return why === undefined;
}

async function track(work: Work): Promise<Went> {
  const address = work.secret?.('tracking-address');
  if (!address || !work.get) return { sentence: 'No tracking is set up to be asked.' };
  try {
    const { status, text } = await work.get(address);
    if (status !== 200)
      return { sentence: `The tracking answered with ${status}.`, failed: true, again: 900 };
    const { tracked, unread } = readTracking(text);
    let noted = 0;
    for (const one of tracked) if (await note(work, one)) noted++;
    const heard = noted === 1 ? '1 parcel was' : `${noted || 'No'} parcels were`;
    const left = unread === 1 ? '; 1 line could not be read' : `; ${unread} lines could not be read`;
    return { sentence: `${heard} heard of${unread > 0 ? left : ''}.` };
  } catch (error) {
    const why = error instanceof NoAnswer ? error.message : 'it is neither CSV nor JSON.';
    return { sentence: `The tracking could not be read: ${why}`, failed: true, again: 900 };
  }
}

async function assume(work: Work): Promise<Went> {
  const { assumeDays } = (await work.states(shopKind, [SETTINGS])).get(SETTINGS)!.facts;
  if (assumeDays === undefined) return { sentence: 'Nothing is taken to have come of which nobody said so.' };
  const rows = await work.report('in-the-post');
  const old = rows.filter((one) => Number(one.days) >= assumeDays);
  for (const { parcel } of old)
    await work.record({
      command: 'parcel.assume-arrived',
      input: { parcel, after: assumeDays },
      knownBy: ['assume', parcel],
    });
  const came = old.length === 1 ? '1 parcel is' : `${old.length || 'No'} parcels are`;
  return { sentence: `${came} taken to have come after ${assumeDays} days.` };
}

export const fetchTracking: PluginJob = {
  title: 'Ask the post where parcels are',
  about: 'What it says of a number goes to its parcel.',
  every: 60,
  takes: [
    {
      name: 'tracking-address',
      kind: 'address',
      label: 'Address of the list',
      hint: 'A table or JSON list of number, date and status. It begins with https://.',
    },
  ],
  run: track,
};
export const assumeArrived: PluginJob = {
  title: 'Take old parcels to have come',
  about: 'Of which nobody said anything for as many days as the shop’s settings say; they are marked so.',
  every: 720,
  run: assume,
};
