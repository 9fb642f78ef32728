/** What can be asked. */
import { z } from 'zod';
import { AskRefused, report } from '../../server/contract/plugin.ts';
import { handle } from '../../server/contract/studio/values.ts';
import { askedShape, madeOf } from './asked.ts';
import { pagesOf } from './drawing/draw-template.ts';
import { keptKind } from './kept.ts';
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

/** All templates that are kept, those put away last. */
export const templates = report({
  title: 'Templates',
  input: z.strictObject({}),
  run: async (ask) => {
    const rows = await ask.query<Record<string, unknown>>(
      'SELECT template, name, form, version, downloads, printed, put_away AS putAway, sizes, nested FROM templates ORDER BY put_away, name',
    );
    return {
      sentence: `${rows.length} ${rows.length === 1 ? 'template is' : 'templates are'} kept.`,
      rows,
      notes: [],
      figures: [
        {
          figure: 'table',
          title: 'Templates',
          columns: [
            { field: 'name', label: 'Template', kind: 'text' },
            { field: 'version', label: 'Version', kind: 'count' },
            { field: 'downloads', label: 'Sent as files', kind: 'count' },
            { field: 'printed', label: 'Printed here', kind: 'count' },
          ],
        },
      ],
    };
  },
});

/** One template: its newest version whole, and each version and giving-out in the order they happened. */
export const template = report({
  title: 'A template',
  input: z.strictObject({ template: handle }),
  unlisted: true,
  run: async (ask, input) => {
    const kept = await ask.state(keptKind, input.template);
    if (!kept.facts) throw new AskRefused(`There is no template ${input.template}.`, 'template');
    const story = await ask.story(`template:${input.template}`);
    const rows = story.map(({ entry, struckBy }) => ({
      seq: entry.seq,
      event: entry.name,
      day: entry.happenedAt.slice(0, 10),
      struck: struckBy !== undefined,
    }));
    return {
      sentence: `${kept.facts.name}, version ${kept.version}.`,
      rows,
      notes: [],
      figures: [],
      more: {
        ...kept.facts,
        version: kept.version,
        downloads: kept.downloads,
        printed: kept.printed,
        putAway: kept.putAway,
      },
    };
  },
});
