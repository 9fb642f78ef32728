/** The pieces behind a number: one shape of row and one table for every plugin. */
import type { Figure } from '../figures.ts';
import type { Answered } from '../plugin.ts';
import { plural } from './words.ts';

/** What a plugin's own table of pieces gives; `count` pieces of it stand behind the number. */
export interface Behind {
  readonly piece: string;
  readonly mark: string | null;
  readonly form: string | null;
  readonly count: number;
  readonly grade: string;
  readonly day: string;
  /** Minor units. */
  readonly lost?: number;
  readonly currency?: string;
}

interface Options {
  readonly from?: string;
  readonly to?: string;
  /** Rows shown at most; where `found` holds more, that is said. */
  readonly limit: number;
  /** Said of how many; '12 pieces, and more' when left out. */
  readonly said?: (pieces: number, more: string) => string;
  readonly notes?: readonly string[];
  /** What `day` is the day of; 'Fired' when left out. */
  readonly dayLabel?: string;
}

const columns = (money: boolean, dayLabel: string): Extract<Figure, { figure: 'table' }>['columns'] => [
  { field: 'mark', label: 'Mark', kind: 'mark', behind: 'story' },
  { field: 'form', label: 'Form', kind: 'text', behind: 'story' },
  { field: 'count', label: 'Pieces', kind: 'count' },
  { field: 'grade', label: 'Grade', kind: 'code' },
  { field: 'day', label: dayLabel, kind: 'day' },
  ...(money ? ([{ field: 'lost', label: 'Lost', kind: 'money', wide: true }] as const) : []),
];

export function piecesBehind(found: readonly Behind[], options: Options): Answered {
  const { limit, from, to, notes = [], dayLabel = 'Fired' } = options;
  const rows = found
    .slice(0, limit)
    .map((row) => ({ ...row, story: `/ware/${encodeURIComponent(row.piece)}` }));
  const pieces = rows.reduce((sum, row) => sum + row.count, 0);
  const more = found.length > limit ? ', and more' : '';
  const said = options.said ?? (() => `${plural(pieces, 'piece')}${more}.`);
  return {
    from: from ?? null,
    to: to ?? null,
    sentence: rows.length === 0 ? 'No pieces behind this number.' : said(pieces, more),
    rows,
    notes: [...notes],
    figures: [
      {
        figure: 'table',
        title: 'The pieces behind the number',
        columns: columns(found[0]?.lost !== undefined, dayLabel),
      },
    ],
  };
}
