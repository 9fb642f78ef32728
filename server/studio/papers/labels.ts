/** Labels for boards and boxes: the foot mark large, a code to find the piece by, and what it is. */
import { z } from 'zod';
import type { Mark, Said } from '../../contract/paper.ts';
import { PaperRefused, paper } from '../../contract/plugin.ts';
import { dayText, opened } from '../../contract/reports/words.ts';
import { gridFields, gridSheets, type Place } from './grid.ts';
import { whatOf } from './said.ts';
import { type WareRow, wareFor, whichFields } from './which.ts';

export const labels = paper({
  title: 'Labels for boards and boxes',
  unlisted: true,
  input: z.strictObject({
    ...whichFields,
    ...gridFields,
    columns: gridFields.columns.default(3),
    rows: gridFields.rows.default(8),
    left: gridFields.left.default(7),
    top: gridFields.top.default(12),
    across: gridFields.across.default(2.5),
    down: gridFields.down.default(0),
  }),
  run: async (ask, { pieces, firing, stage, ...grid }) => {
    if (!pieces && !firing && !stage)
      throw new PaperRefused('Say which pieces: by their ids, a firing or a stage.', 'pieces');
    const ware = await wareFor(ask, { pieces, firing, stage }, "stage <> 'left'");
    if (ware.length === 0) throw new PaperRefused('Nothing that is here fits.', 'pieces');
    return { form: 'sheets', title: 'Labels', file: 'labels', sheets: gridSheets(ware, grid, label) };
  },
});

/** What the code holds: the mark alone where there is one, so that the code stays coarse and easy to read. */
export const codeFor = ({ piece, mark }: Pick<WareRow, 'piece' | 'mark'>): string =>
  mark ?? `/ware/${encodeURIComponent(piece)}`;

function label(row: WareRow, { width, height }: Place): Mark[] {
  const pad = Math.min(4, height / 8);
  const code = Math.min(height - 2 * pad, width * 0.34, 26);
  // Four modules of the code stay white beside it.
  const x = pad + code + Math.max(pad, code / 5);
  const room = width - x - pad;
  const head = Math.min(8.5, height * 0.26);
  const rest = height - 2 * pad - head * 1.1;
  const line = { align: 'left', width: room, fit: 'shrink', least: 1.6, leading: 1.2 } as const;
  return [
    { mark: 'qr', x: pad, y: (height - code) / 2, size: code, text: codeFor(row), level: 'M' },
    // Wide apart, so that no two symbols are taken for one.
    {
      mark: 'words',
      text: row.mark ?? 'no mark',
      x,
      y: pad,
      size: head,
      spacing: head * 0.12,
      weight: 'bold',
      ...line,
      height: head * 1.2,
      leading: 1.05,
    },
    {
      mark: 'words',
      text: toldOn(row),
      x,
      y: pad + head * 1.15,
      size: Math.min(3.4, rest / 4),
      ...line,
      height: rest,
    },
  ];
}

function toldOn(row: WareRow): Said {
  const lines = [
    whatOf(row),
    row.clay,
    row.glazes,
    `${opened(row.stage)}, begun ${dayText(row.begunAt.slice(0, 10))}`,
  ];
  const text = lines.filter((it) => it !== null && it !== '').join('\n');
  return row.person === null ? text : [{ person: row.person }, `\n${text}`];
}
