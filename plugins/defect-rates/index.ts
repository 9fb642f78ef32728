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
