/** Seconds and wasters, counted per piece. */
import { CONTRACT, definePlugin } from '../../server/contract/plugin.ts';
import {
  clayNaming,
  firingNaming,
  glazeNaming,
  kilnNaming,
  scheduleNaming,
} from '../../server/contract/reports/names.ts';
import { firedOnce } from './first-firings.ts';
import { pieces } from './pieces.ts';
import { gradedWare } from './projections.ts';
import { byClay, byFault, byGlaze, byKiln, byMonth, bySchedule } from './reports.ts';
import { worstGlaze } from './worst-glaze.ts';
import { worstGlazePieces } from './worst-glaze-pieces.ts';
import { firedWare } from './year/fired.ts';
import { year } from './year/year.ts';
import { yearPaper } from './year/year-paper.ts';

export default definePlugin({
  id: 'seconds-tally',
  contract: CONTRACT,
  about:
    'Seconds and wasters by month, glaze, clay, schedule, kiln and fault, with the pieces behind every number.',
  needs: ['studio'],
  prefixes: [],
  projections: {
    graded: gradedWare,
    'first-firings': firedOnce,
    'fired-ware': firedWare,
    firings: firingNaming,
    glazes: glazeNaming,
    clays: clayNaming,
    schedules: scheduleNaming,
    kilns: kilnNaming,
  },
  reports: {
    'by-month': byMonth,
    'by-glaze': byGlaze,
    'by-clay': byClay,
    'by-schedule': bySchedule,
    'by-kiln': byKiln,
    'by-fault': byFault,
    'worst-glaze': worstGlaze,
    year,
    pieces,
    'worst-glaze-pieces': worstGlazePieces,
  },
  papers: { year: yearPaper },
});
