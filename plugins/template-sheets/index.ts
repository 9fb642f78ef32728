/** Templates of pots: from measures or a drawing to sheets of true size. */
import { CONTRACT, definePlugin } from '../../server/contract/plugin.ts';
import { sheets } from './papers.ts';
import { pieces } from './reports.ts';

export default definePlugin({
  id: 'template-sheets',
  contract: CONTRACT,
  about: 'Unrolls forms into flat pieces and lays them on sheets to print at true size.',
  needs: ['studio'],
  prefixes: ['template'],
  reports: { pieces },
  papers: { sheets },
});
