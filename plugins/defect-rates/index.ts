/** Fault rates by all that a piece was made of and went through, and how sure they are. */
import { CONTRACT, definePlugin } from '../../server/contract/plugin.ts';
import {
  clayNaming,
  firingNaming,
  glazeNaming,
  kilnNaming,
  scheduleNaming,
} from '../../server/contract/reports/names.ts';
import { beforeAfter } from './before-after.ts';
import { chart } from './chart.ts';
import { faultGuide } from './guide/fault-guide.ts';
import { guidePaper } from './guide/guide-paper.ts';
import { pieces, repairPieces } from './pieces.ts';
import { inspectedWare } from './projections.ts';
import * as rates from './rates.ts';
import { repairs } from './repairs.ts';
import { batchesOpened, kilnsPacked, schedulesWritten } from './switches.ts';
import { glazeWithinSchedule } from './within-schedule.ts';

export default definePlugin({
  id: 'defect-rates',
  contract: CONTRACT,
  about:
    'Rates of seconds, wasters and faults by glaze, clay, schedule, kiln and more, with the range that is believable.',
  needs: ['studio'],
  prefixes: [],
  projections: {
    inspected: inspectedWare,
    packings: kilnsPacked,
    batches: batchesOpened,
    versions: schedulesWritten,
    firings: firingNaming,
    glazes: glazeNaming,
    clays: clayNaming,
    schedules: scheduleNaming,
    kilns: kilnNaming,
  },
  reports: {
    'by-glaze': rates.byGlaze,
    'by-clay': rates.byClay,
    'by-schedule': rates.bySchedule,
    'by-kiln': rates.byKiln,
    'by-shelf': rates.byShelf,
    'by-coats': rates.byCoats,
    'by-method': rates.byMethod,
    'by-layers': rates.byLayers,
    'glaze-on-clay': rates.glazeOnClay,
    'glaze-on-schedule': rates.glazeOnSchedule,
    'glaze-within-schedule': glazeWithinSchedule,
    'before-after': beforeAfter,
    chart,
    repairs,
    'fault-guide': faultGuide,
    pieces,
    'repair-pieces': repairPieces,
  },
  papers: { 'fault-guide': guidePaper },
});
