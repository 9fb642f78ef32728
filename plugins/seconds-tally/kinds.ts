/** The groups that the tally is made by. */
import type { Asked } from './period.ts';

export interface Kind {
  readonly noun: string;
  readonly title: string;
  /** Column of cells that rows are grouped by. */
  readonly group: string;
  by(of: Asked): string;
  /** Table with the names of the keys. */
  readonly names?: string;
  readonly firstByKey?: boolean;
  /** Said of graded pieces that stand in no row. */
  readonly missing?: string;
}

export const KINDS = {
  'by-month': {
    noun: 'month',
    title: 'Seconds and wasters by month',
    group: 'substr(day, 1, 7)',
    by: () => 'all',
    firstByKey: true,
  },
  'by-glaze': {
    noun: 'glaze',
    title: 'Seconds and wasters by glaze',
    group: 'key',
    by: () => 'glaze',
    names: 'glaze_names',
    missing: 'have no glaze noted',
  },
  'by-clay': {
    noun: 'clay',
    title: 'Seconds and wasters by clay',
    group: 'key',
    by: () => 'clay',
    names: 'clay_names',
    missing: 'have no clay noted',
  },
  'by-schedule': {
    noun: 'schedule',
    title: 'Seconds and wasters by firing schedule',
    group: 'key',
    by: (of) => (of.role === 'bisque' ? 'bisque-schedule' : 'schedule'),
    names: 'schedule_names',
    missing: 'have no schedule noted',
  },
  'by-kiln': {
    noun: 'kiln',
    title: 'Seconds and wasters by kiln',
    group: 'key',
    by: (of) => (of.role === 'bisque' ? 'bisque-kiln' : 'kiln'),
    names: 'kiln_names',
    missing: 'have no kiln noted',
  },
  'by-fault': { noun: 'fault', title: 'Seconds and wasters by fault', group: 'key', by: () => 'fault' },
} as const satisfies Record<string, Kind>;
