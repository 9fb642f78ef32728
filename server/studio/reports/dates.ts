/** The studio's days for the calendar: its firings. */
import { z } from 'zod';
import { type Answered, type Ask, report } from '../../contract/plugin.ts';
import { namesOf } from './names.ts';
import { daysBefore } from './usually.ts';

/** Days back that a calendar shows. */
const BACK = 120;

interface Fired {
  firing: string;
  label: string | null;
  kiln: string;
  schedule: string | null;
  state: string;
  pieces: number;
  lit: string;
  ended: string | null;
  changed: number;
}

async function dates(ask: Ask): Promise<Answered> {
  const names = await namesOf(ask);
  const fired = await ask.query<Fired>(
    `SELECT firing, label, kiln, schedule, state, pieces, lit_at AS lit, ended_at AS ended, changed_seq AS changed
     FROM firings WHERE lit_at IS NOT NULL AND state <> 'abandoned' AND lit_at >= ? ORDER BY lit_at`,
    [daysBefore(ask.today, BACK)],
  );
  const rows = fired.map((f) => {
    const kiln = names.kiln.get(f.kiln) ?? f.kiln;
    return {
      uid: `firing-${f.firing}`,
      what: f.label ?? kiln,
      from: f.lit,
      until: f.ended,
      where: kiln,
      note: `${f.schedule ? `${names.schedule.get(f.schedule) ?? f.schedule}, ` : ''}${f.pieces} ${f.pieces === 1 ? 'piece' : 'pieces'}`,
      changed: f.changed,
      to: `/kilns/${encodeURIComponent(f.firing)}`,
    };
  });
  return {
    sentence: `${rows.length} ${rows.length === 1 ? 'firing' : 'firings'}.`,
    rows,
    notes: [],
    figures: [],
  };
}

export const datesReport = report({
  title: 'Firings for the calendar',
  unlisted: true,
  tells: 'dates',
  input: z.strictObject({}),
  run: dates,
});
