/** Templates of pots: from measures or a drawing to sheets of true size. */
import { CONTRACT, definePlugin } from '../../server/contract/plugin.ts';
import * as keeping from './commands.ts';
import { templateEvents } from './events.ts';
import { keptKind } from './kept.ts';
import { kept, sheets } from './papers.ts';
import { keptList } from './projections.ts';
import { pieces, template, templates } from './reports.ts';

export default definePlugin({
  id: 'template-sheets',
  contract: CONTRACT,
  about: 'Unrolls forms into flat pieces and lays them on sheets to print at true size.',
  needs: ['studio'],
  prefixes: ['template'],
  events: templateEvents,
  streams: [keptKind],
  commands: {
    'template.draw': keeping.drawTemplate,
    'template.change': keeping.changeTemplate,
    'template.give-out': keeping.giveOut,
    'template.put-away': keeping.putAway,
  },
  projections: { templates: keptList },
  reports: { templates, template, pieces },
  papers: { sheets, kept },
});
