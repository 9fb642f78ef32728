/** What can be asked. */
import { report } from '../../server/contract/plugin.ts';
import { askedShape, madeOf } from './asked.ts';
import { pagesOf } from './drawing/draw-template.ts';
import { templateJson } from './template.ts';

/** The pieces of a template in mm, before they are printed. */
export const pieces = report({
  title: 'Pieces of a template',
  input: askedShape,
  unlisted: true,
  run: async (_ask, asked) => {
    const { template, dropped } = madeOf(asked);
    const { checks, ...whole } = { ...templateJson(template), pages: pagesOf(template) };
    const failed = checks.filter(({ passed }) => !passed).map(({ sentence }) => sentence);
    return {
      sentence: `${whole.pieces.length} ${whole.pieces.length === 1 ? 'piece' : 'pieces'} on ${whole.pages} pages of ${template.sheets.page.paper.name}, the page that tells how they go together among them.`,
      rows: whole.pieces.map(({ name, count, width, height }) => ({ name, count, width, height })),
      notes: [...dropped, ...failed],
      figures: [
        {
          figure: 'table',
          title: 'Pieces, wet',
          columns: [
            { field: 'name', label: 'Piece', kind: 'text' },
            { field: 'count', label: 'How many', kind: 'count' },
            { field: 'width', label: 'Width, mm', kind: 'number' },
            { field: 'height', label: 'Height, mm', kind: 'number' },
          ],
        },
      ],
      more: { template: whole, checks },
    };
  },
});
