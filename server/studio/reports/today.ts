/** What waits: kilns to light and draw, repairs, clients and students, ware to grade, ware that is slow to dry. */
import { z } from 'zod';
import { type Answered, type Ask, report } from '../../contract/plugin.ts';
import { namesOf } from './names.ts';
import { daysBefore, usuallyDrawn } from './usually.ts';

/** Headings in their order; the kilns come first, since they hold up all else. */
const HEADS: Readonly<Record<string, readonly [title: string, order: number]>> = {
  draw: ['Kilns to draw', 10],
  end: ['Kilns firing', 12],
  light: ['Kilns to light', 14],
  ask: ['Clients to ask', 40],
  decide: ['Repairs to decide', 42],
  mend: ['Waiting to be mended', 44],
  grade: ['Fired and not graded yet', 50],
  tell: ['To be told that it is ready', 60],
  dry: ['Drying for a long time', 80],
};

/** Days after which unfired ware is named as slow to dry. Common practice, no source: most is dry within two weeks. */
const SLOW = 21;
/** Days for which a decision stays open before it is taken to be made. */
const OPEN = 30;
/** Lines of one kind; the rest are under Ware. */
const MOST = 20;

const heading = (does: string) => ({ does, title: HEADS[does]![0], order: HEADS[does]![1] });

interface FiringWaiting {
  firing: string;
  label: string | null;
  kiln: string;
  role: string;
  state: 'packed' | 'lit' | 'ended';
  pieces: number;
  at: string;
}
const DOES = { packed: 'light', lit: 'end', ended: 'draw' } as const;

async function firingRows(ask: Ask) {
  const names = await namesOf(ask);
  const firings = await ask.query<FiringWaiting>(
    `SELECT firing, label, kiln, role, state, pieces, coalesce(ended_at, lit_at, packed_at) AS at FROM firings
     WHERE state IN ('packed', 'lit', 'ended') ORDER BY changed_seq`,
  );
  return Promise.all(
    firings.map(async (f) => ({
      kind: 'firing',
      ...heading(DOES[f.state]),
      what: f.label ?? 'Firing',
      where: names.kiln.get(f.kiln) ?? f.kiln,
      pieces: f.pieces,
      since: f.at,
      usually: f.state === 'ended' ? await usuallyDrawn(ask, f) : null,
      to: `/kilns/${encodeURIComponent(f.firing)}`,
    })),
  );
}

interface WareWaiting {
  does: string;
  piece: string;
  mark: string | null;
  form: string | null;
  count: number;
  person: string | null;
  since: string;
}

/** Where each is done, after the piece's own address. */
const STEP: Readonly<Record<string, string>> = {
  mend: '/mend',
  grade: '/grade',
  decide: '/repair',
  ask: '/tell',
  tell: '/tell',
  dry: '/dry',
};

async function wareRows(ask: Ask) {
  const slow = daysBefore(ask.today, SLOW);
  const open = daysBefore(ask.today, OPEN);
  const among = (does: string, where: string, ...params: string[]) =>
    ask.query<WareWaiting & { all: number }>(
      `SELECT *, count(*) OVER () AS "all" FROM waiting WHERE does = '${does}' ${where} ORDER BY since LIMIT ${MOST}`,
      params,
    );
  const found = await Promise.all([
    among('ask', 'AND since >= ?', open),
    among('decide', 'AND since >= ?', open),
    among('mend', ''),
    among('grade', ''),
    among('tell', 'AND since >= ?', open),
    among('dry', 'AND since <= ?', slow),
  ]);
  const more = Object.fromEntries(
    found.flatMap((rows) =>
      rows[0] && rows[0].all > rows.length ? [[rows[0].does, rows[0].all - rows.length]] : [],
    ),
  );
  const rows = found.flat().map((w) => ({
    kind: w.does === 'mend' ? 'mending' : w.does,
    ...heading(w.does),
    what: w.form ?? 'Piece',
    mark: w.mark,
    pieces: w.count,
    person: w.person ? { person: w.person } : null,
    since: w.since,
    to: `/ware/${encodeURIComponent(w.piece)}${STEP[w.does]}`,
  }));
  return { rows, more };
}

async function waiting(ask: Ask): Promise<Answered> {
  const ware = await wareRows(ask);
  const rows = [...(await firingRows(ask)), ...ware.rows].sort((a, b) => a.order - b.order);
  const standing = await ask.query<{ stage: string; pieces: number }>(
    `SELECT stage, sum(pieces) AS pieces FROM standing GROUP BY stage`,
  );
  return {
    sentence:
      rows.length === 0
        ? 'Nothing waits.'
        : `${rows.length} ${rows.length === 1 ? 'thing waits' : 'things wait'}.`,
    rows,
    notes: [],
    figures: [],
    more: { standing: Object.fromEntries(standing.map((s) => [s.stage, s.pieces])), unlisted: ware.more },
  };
}

export const todayReport = report({
  title: 'Today',
  unlisted: true,
  tells: 'waiting',
  input: z.strictObject({}),
  run: waiting,
});
