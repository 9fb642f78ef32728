/** What can be printed. */
import { z } from 'zod';
import { PaperRefused, paper } from '../../server/contract/plugin.ts';
import { handle } from '../../server/contract/studio/values.ts';
import { askedShape, madeOf } from './asked.ts';
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

/** Sheets of the newest version of a template that is kept, on the paper that is asked for. */
export const kept = paper({
  title: 'A template that is kept',
  input: z.strictObject({
    template: handle,
    paper: z.string().max(40).default('A4'),
    order: dressingShape.shape.order,
  }),
  unlisted: true,
  run: async (ask, { template, paper: on, order }) => {
    const { facts } = await ask.state(keptKind, template);
    if (!facts) throw new PaperRefused(`There is no template ${template}.`, 'template');
    const made = templateFor({ ...facts.spec, name: facts.name }, on);
    if ('wrong' in made) throw new PaperRefused(made.wrong.join(' '), 'paper');
    const { licence, howTo } = facts;
    return drawTemplate(made, { maker: ask.settings.studio, licence, howTo, order });
  },
});
