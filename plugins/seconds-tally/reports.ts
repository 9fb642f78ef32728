/** Seconds and wasters by month, glaze, clay, schedule, kiln and fault, for any period, beside the year before. */
import type { z } from 'zod';
import { type Answered, type Ask, type Report, report } from '../../server/contract/plugin.ts';
import { spanBefore } from '../../server/contract/year.ts';
import { KINDS, type Kind } from './kinds.ts';
import { type Asked, periodInput, roleInput } from './period.ts';
import { marks, type Sums, share, spoiled, sums, type Total, total } from './sums.ts';

function behindOf(kind: Kind, of: Asked, key: string): (grade?: string) => string {
  const isMonth = kind.noun === 'month';
  return (grade) => {
    const query = new URLSearchParams({
      by: kind.by(of),
      ...(isMonth ? { month: key } : { key }),
      ...(of.from ? { from: of.from } : {}),
      ...(of.to ? { to: of.to } : {}),
      owners: of.owners.join(','),
      ...(grade ? { grade } : {}),
    });
    return `/review/seconds-tally/pieces?${query}`;
  };
}

const faultName = (id: string): string => id.replaceAll('-', ' ');

async function namesFor(ask: Ask, kind: Kind): Promise<(key: string) => string> {
  if (!kind.names) return (key) => key;
  const found = await ask.query<{ id: string; name: string }>(`SELECT id, name FROM ${kind.names}`);
  const names = new Map(found.map((row) => [row.id, row.name]));
  return (key) => names.get(key) ?? key;
}

/** Sums a year earlier by key, when a whole period is asked for. */
async function before(ask: Ask, kind: Kind, of: Asked): Promise<Map<string, Sums> | undefined> {
  if (!of.from || !of.to) return undefined;
  const earlier = { ...of, ...spanBefore({ from: of.from, to: of.to }) };
  const found = await sums(ask, kind.by(of), kind.group, earlier);
  const nextYear = (key: string) =>
    kind.noun === 'month' ? `${Number(key.slice(0, 4)) + 1}${key.slice(4)}` : key;
  return new Map(found.map((s) => [`${nextYear(s.key)} ${s.currency}`, s]));
}

const MONTH = new Intl.DateTimeFormat('en-GB', { month: 'long', year: 'numeric', timeZone: 'UTC' });
const monthName = (month: string): string => MONTH.format(new Date(`${month}-01T00:00:00Z`));

const plural = (n: number, one: string, many: string): string => `${n} ${n === 1 ? one : many}`;

function sentence(
  kind: Kind,
  rows: readonly { key: string; pieces: number; seconds: number; wasters: number }[],
  all: Total,
): string {
  if (all.pieces === 0) return 'No graded pieces in this time.';
  const rate = Math.round((100 * spoiled(all)) / all.pieces);
  const total = `${plural(all.seconds, 'second', 'seconds')} and ${plural(all.wasters, 'waster', 'wasters')} of ${plural(all.pieces, 'graded piece', 'graded pieces')} (${rate} %)`;
  const most = rows.toSorted((a, b) => spoiled(b) - spoiled(a))[0];
  if (!most || spoiled(most) === 0) return `${total}.`;
  const where = kind.noun === 'month' ? `in ${monthName(most.key)}` : `with ${kind.noun} ${most.key}`;
  return `${total}; most ${where}: ${spoiled(most)} of ${most.pieces}.`;
}

async function notes(ask: Ask, kind: Kind, of: Asked, all: Total, rows: readonly Sums[]): Promise<string[]> {
  const found = await ask.query<{ pieces: number | null }>(
    `SELECT sum(pieces) AS pieces FROM waiting WHERE day >= ? AND day <= ? AND owner IN (${marks(of.owners.length)})`,
    [of.from ?? '', of.to ?? '9999', ...of.owners],
  );
  const waits = found[0]?.pieces ?? 0;
  const inRows = rows.reduce((sum, row) => sum + row.pieces, 0);
  return [
    ...(waits > 0
      ? [`${plural(waits, 'piece is', 'pieces are')} fired and not graded yet, and left out.`]
      : []),
    ...(kind.missing && kind.noun !== 'glaze' && inRows < all.pieces
      ? [
          `${plural(all.pieces - inRows, 'graded piece', 'graded pieces')} ${kind.missing}, and ${all.pieces - inRows === 1 ? 'is' : 'are'} left out.`,
        ]
      : []),
    ...(kind.noun === 'glaze'
      ? ['A piece counts under each of its glazes, so the rows add up to more than the whole.']
      : []),
    ...(kind.noun === 'fault'
      ? ['A piece counts under each of its faults; a fault on a first cost no grade.']
      : []),
    ...(all.unpriced > 0
      ? [
          `${plural(all.unpriced, 'second or waster has', 'seconds or wasters have')} no price noted: what was lost is at least this much.`,
        ]
      : []),
  ];
}

async function tallyBy(ask: Ask, name: keyof typeof KINDS, of: Asked): Promise<Answered> {
  const kind: Kind = KINDS[name];
  const [found, whole, names, earlier] = await Promise.all([
    sums(ask, kind.by(of), kind.group, of),
    sums(ask, 'all', "''", of),
    namesFor(ask, kind),
    before(ask, kind, of),
  ]);
  const all = total(whole);
  const rows = found.map((s) => {
    const then = earlier?.get(`${s.key} ${s.currency}`);
    const behind = behindOf(kind, of, s.key);
    return {
      key: names(s.key),
      id: s.key,
      ...(kind.noun === 'fault' ? { label: faultName(s.key) } : { label: names(s.key) }),
      pieces: s.pieces,
      firsts: s.firsts,
      seconds: s.seconds,
      wasters: s.wasters,
      rate: share(spoiled(s), s.pieces),
      lost: Math.round(s.lost),
      currency: s.currency,
      ...(earlier
        ? {
            piecesBefore: then?.pieces ?? 0,
            spoiledBefore: then ? spoiled(then) : 0,
            rateBefore: then ? share(spoiled(then), then.pieces) : null,
          }
        : {}),
      piecesBehind: behind(),
      firstsBehind: behind('first'),
      secondsBehind: behind('second'),
      wastersBehind: behind('waster'),
    };
  });
  const sorted = kind.firstByKey
    ? rows
    : rows.toSorted((a, b) => spoiled(b) - spoiled(a) || a.key.localeCompare(b.key));
  return {
    from: of.from ?? null,
    to: of.to ?? null,
    sentence: sentence(
      kind,
      sorted.map((row) => ({ ...row, key: row.label })),
      all,
    ),
    rows: sorted,
    notes: await notes(ask, kind, of, all, found),
    figures: [
      {
        figure: 'tally',
        title: kind.title,
        label: 'label',
        parts: [
          { field: 'firsts', label: 'Firsts', kind: 'count', behind: 'firstsBehind' },
          { field: 'seconds', label: 'Seconds', kind: 'count', behind: 'secondsBehind' },
          { field: 'wasters', label: 'Wasters', kind: 'count', behind: 'wastersBehind' },
        ],
      },
      {
        figure: 'table',
        title: 'In numbers',
        columns: [
          {
            field: 'label',
            label: kind.noun.charAt(0).toUpperCase() + kind.noun.slice(1),
            kind: 'text',
            behind: 'piecesBehind',
          },
          { field: 'pieces', label: 'Pieces', kind: 'count', behind: 'piecesBehind' },
          { field: 'firsts', label: 'Firsts', kind: 'count', behind: 'firstsBehind' },
          { field: 'seconds', label: 'Seconds', kind: 'count', behind: 'secondsBehind' },
          { field: 'wasters', label: 'Wasters', kind: 'count', behind: 'wastersBehind' },
          { field: 'rate', label: 'Seconds and wasters', kind: 'rate' },
          { field: 'lost', label: 'Lost', kind: 'money' },
          ...(earlier
            ? ([
                { field: 'spoiledBefore', label: 'Year before', kind: 'count' },
                { field: 'rateBefore', label: 'Rate the year before', kind: 'rate' },
              ] as const)
            : []),
        ],
      },
    ],
  };
}

const withRole = (name: 'by-schedule' | 'by-kiln'): Report<Asked> =>
  report<Asked>({
    title: KINDS[name].title,
    input: roleInput as unknown as z.ZodType<Asked>,
    run: (ask, of) => tallyBy(ask, name, of),
  });
const plain = (name: keyof typeof KINDS): Report<Asked> =>
  report<Asked>({
    title: KINDS[name].title,
    input: periodInput as unknown as z.ZodType<Asked>,
    run: (ask, of) => tallyBy(ask, name, of),
  });

export const byMonth = plain('by-month');
export const byGlaze = plain('by-glaze');
export const byClay = plain('by-clay');
export const bySchedule = withRole('by-schedule');
export const byKiln = withRole('by-kiln');
export const byFault = plain('by-fault');
