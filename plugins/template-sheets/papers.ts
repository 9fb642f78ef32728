/** What can be printed. */
import { z } from 'zod';
import { PaperRefused, paper } from '../../server/contract/plugin.ts';
import { handle } from '../../server/contract/studio/values.ts';
import { askedShape, madeOf, nestedOf, nestedShape } from './asked.ts';
import { drawTemplate } from './drawing/draw-template.ts';
import { dressingShape } from './drawing/dressing.ts';
import { keptKind } from './kept.ts';
import { templateFor } from './template.ts';

/** Sheets of a template that is given whole, and kept nowhere. */
export const sheets = paper({
  title: 'Template sheets',
  input: askedShape.extend(dressingShape.shape),
  unlisted: true,
  run: async (ask, { maker, licence, howTo, order, ...asked }) => {
    const { template } = madeOf(asked);
    return drawTemplate(template, { maker: maker ?? ask.settings.studio, licence, howTo, order });
  },
});

/** Papers that a buyer may choose from; a roll is as wide as most shops for prints have them. */
const HANDED_OUT_ON = ['A4', 'A3', 'Letter', 'Tabloid', 'roll 610', 'roll 914'] as const;

/** Sheets of the newest version of a template that is kept, on the paper that is asked for. */
export const kept = paper({
  title: 'A template that is kept',
  input: z.strictObject({
    template: handle,
    paper: z.string().max(40).default('A4'),
    nested: nestedShape,
    order: dressingShape.shape.order,
  }),
  unlisted: true,
  given: {
    choices: async (ask) => {
      const rows = await ask.query<{ template: string; name: string }>(
        'SELECT template, name FROM templates WHERE put_away = 0 ORDER BY name',
      );
      return rows.map((row) => ({
        input: { template: row.template },
        title: row.name,
        to: `/templates#${row.template}`,
      }));
    },
    size: { field: 'paper', names: HANDED_OUT_ON },
    order: 'order',
    wentOut: ({ input, size, order }) => ({
      command: 'template.give-out',
      input: { template: input.template, paper: size ?? HANDED_OUT_ON[0], how: 'download', order },
    }),
  },
  run: async (ask, { template, paper: on, nested, order }) => {
    const { facts, version } = await ask.state(keptKind, template);
    if (!facts) throw new PaperRefused(`There is no template ${template}.`, 'template');
    const made = templateFor({ ...facts.spec, name: facts.name, ...nestedOf(nested) }, on);
    if ('wrong' in made) throw new PaperRefused(made.wrong.join(' '), 'paper');
    const { licence, howTo } = facts;
    return drawTemplate(made, { maker: ask.settings.studio, licence, howTo, order, version });
  },
});
