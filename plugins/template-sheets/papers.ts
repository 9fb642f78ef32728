/** What can be printed. */
import { paper } from '../../server/contract/plugin.ts';
import { askedShape, madeOf } from './asked.ts';
import { drawTemplate } from './drawing/draw-template.ts';
import { dressingShape } from './drawing/dressing.ts';

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
