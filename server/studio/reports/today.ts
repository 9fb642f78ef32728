/** What waits: kilns to light and draw, repairs, ware to grade and to glaze. */
import { z } from 'zod';
import { type Answered, type Ask, report } from '../../contract/plugin.ts';
import { namesOf } from './names.ts';

const FIRING_DOES: Readonly<Record<string, string>> = { packed: 'light', lit: 'end', ended: 'draw' };

interface WareWaiting {
  piece: string;
  mark: string | null;
  form: string | null;
  count: number;
  at: string;
}

/** The ware that has waited longest. @param where SQL of our own, never of a user's */
const wareWaiting = (ask: Ask, where: string): Promise<WareWaiting[]> =>
  ask.query<WareWaiting>(
    `SELECT piece, mark, form, count, changed_at AS at FROM ware WHERE ${where} ORDER BY changed_seq LIMIT 50`,
  );

const wareRow = (p: WareWaiting, kind: string, does: string) => ({
  kind,
  does,
  what: p.form ?? 'Piece',
  mark: p.mark,
  pieces: p.count,
  since: p.at,
  to: `/ware/${encodeURIComponent(p.piece)}`,
});

async function waiting(ask: Ask): Promise<Answered> {
  const names = await namesOf(ask);
  const firings = await ask.query<{
    firing: string;
    label: string | null;
    kiln: string;
    state: string;
    pieces: number;
    at: string;
  }>(
    `SELECT firing, label, kiln, state, pieces, coalesce(ended_at, lit_at, packed_at) AS at FROM firings
     WHERE state IN ('packed', 'lit', 'ended') ORDER BY CASE state WHEN 'ended' THEN 0 WHEN 'lit' THEN 1 ELSE 2 END, changed_seq`,
  );
  const mending = await wareWaiting(ask, "stage = 'mending'");
  const toGrade = await wareWaiting(ask, "stage = 'glaze-fired' AND in_firing IS NULL");
  const standing = await ask.query<{ stage: string; pieces: number }>(
    `SELECT stage, sum(pieces) AS pieces FROM standing GROUP BY stage`,
  );
  const rows = [
    ...firings.map((f) => ({
      kind: 'firing',
      does: FIRING_DOES[f.state] ?? f.state,
      what: f.label ?? 'Firing',
      where: names.kiln.get(f.kiln) ?? f.kiln,
      pieces: f.pieces,
      since: f.at,
      to: `/kilns/${encodeURIComponent(f.firing)}`,
    })),
    ...mending.map((p) => wareRow(p, 'mending', 'mend')),
    ...toGrade.map((p) => wareRow(p, 'grade', 'grade')),
  ];
  return {
    sentence:
      rows.length === 0
        ? 'Nothing waits.'
        : `${rows.length} ${rows.length === 1 ? 'thing waits' : 'things wait'}.`,
    rows,
    notes: [],
    figures: [],
    more: { standing: Object.fromEntries(standing.map((s) => [s.stage, s.pieces])) },
  };
}

export const todayReport = report({
  title: 'Today',
  unlisted: true,
  input: z.strictObject({}),
  run: waiting,
});
