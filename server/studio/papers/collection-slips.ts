/** A slip for each person whose ware waits to be collected: which pieces, and a line to sign. */
import { z } from 'zod';
import type { Mark } from '../../contract/paper.ts';
import { PaperRefused, paper } from '../../contract/plugin.ts';
import { dayText, plural } from '../../contract/reports/words.ts';
import { id } from '../../contract/studio/values.ts';
import { PAPER_SIZE } from './firing-asked.ts';
import { gridSheets, type Place } from './grid.ts';
import { whatOf } from './said.ts';
import { type WareRow, wareFor, whichFields } from './which.ts';

/** Graded, and not collected yet. */
const WAITING = "stage = 'graded' AND person IS NOT NULL";
/** Lines of a slip; what is more goes on the next one. */
const LINES = 14;

interface Slip {
  readonly person: string;
  readonly rows: readonly WareRow[];
  /** From 1. */
  readonly part: number;
  readonly parts: number;
  readonly pieces: number;
  readonly studio: string;
  readonly day: string;
}

export const collectionSlips = paper({
  title: 'Collection slips',
  input: z.strictObject({
    person: id.optional(),
    firing: whichFields.firing,
    pieces: whichFields.pieces,
    paper: PAPER_SIZE,
  }),
  run: async (ask, { person, firing, pieces, paper: size }) => {
    const ware = (await wareFor(ask, { firing, pieces }, WAITING)).filter(
      (row) => person === undefined || row.person === person,
    );
    if (ware.length === 0)
      throw new PaperRefused('Nothing that is somebody’s waits to be collected.', 'person');
    const slips = slipsOf(ware, ask.settings.studio, ask.today);
    const grid = { paper: size, columns: 2, rows: 2, left: 0, top: 0, across: 0, down: 0, skip: 0 };
    return {
      form: 'sheets',
      title: 'Collection slips',
      file: 'collection-slips',
      sheets: gridSheets(slips, grid, slip, true),
    };
  },
});

function slipsOf(ware: readonly WareRow[], studio: string, day: string): Slip[] {
  const persons = [...new Set(ware.map((row) => row.person!))];
  return persons.flatMap((person) => {
    const own = ware.filter((row) => row.person === person);
    const pieces = own.reduce((sum, { count }) => sum + count, 0);
    const parts = Math.ceil(own.length / LINES);
    return Array.from({ length: parts }, (_, at) => ({
      person,
      rows: own.slice(at * LINES, (at + 1) * LINES),
      part: at + 1,
      parts,
      pieces,
      studio,
      day,
    }));
  });
}

function slip({ person, rows, part, parts, pieces, studio, day }: Slip, { width, height }: Place): Mark[] {
  const pad = 9;
  const room = width - 2 * pad;
  const one = { width: room, fit: 'shrink', least: 1.8 } as const;
  const top = pad + 22;
  const step = (height - top - pad - 20) / LINES;
  return [
    { mark: 'words', text: { person }, x: pad, y: pad, size: 6, weight: 'bold', ...one, height: 8.5 },
    {
      mark: 'words',
      text: `${plural(pieces, 'piece')} to collect from ${studio}, ${dayText(day)}${parts > 1 ? ` (slip ${part} of ${parts})` : ''}`,
      x: pad,
      y: pad + 9.5,
      size: 3.2,
      ...one,
      height: 9,
    },
    {
      mark: 'line',
      points: [
        [pad, top - 2],
        [width - pad, top - 2],
      ],
      pen: { width: 0.3 },
    },
    ...rows.flatMap((row, at) => rowMarks(row, pad, top + at * step, room, step)),
    { mark: 'words', text: 'Collected on', x: pad, y: height - pad - 4, size: 3 },
    {
      mark: 'line',
      points: [
        [pad + 20, height - pad - 0.6],
        [pad + room * 0.55, height - pad - 0.6],
      ],
      pen: { width: 0.2 },
    },
    { mark: 'words', text: 'by', x: pad + room * 0.57, y: height - pad - 4, size: 3 },
    {
      mark: 'line',
      points: [
        [pad + room * 0.63, height - pad - 0.6],
        [pad + room, height - pad - 0.6],
      ],
      pen: { width: 0.2 },
    },
  ];
}

/** A box to tick, the mark, what it is and how it came out. */
function rowMarks(row: WareRow, x: number, y: number, room: number, step: number): Mark[] {
  const size = Math.min(3, step * 0.5);
  const what = [whatOf(row), row.glazes].filter(Boolean).join(', ');
  const line = { y, size, height: step, fit: 'shrink', least: 1.5, vertical: 'middle' } as const;
  return [
    { mark: 'box', x, y: y + (step - 3.4) / 2, width: 3.4, height: 3.4, pen: { width: 0.25 } },
    { mark: 'words', text: row.mark ?? '–', x: x + 5.5, width: 17, weight: 'bold', ...line },
    { mark: 'words', text: what, x: x + 23, width: room - 23 - 15, ...line },
    { mark: 'words', text: row.grade ?? '', x: x + room - 14, width: 14, align: 'right', ...line },
  ];
}
