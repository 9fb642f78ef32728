/**
 * How long the reports of defect-rates and the worst glaze take on the read models of a large log:
 * asked again when nothing has changed, and asked after each of some new grades. Each as a ratio to a
 * bare count of the same cells by group, in the same file and the same run.
 */
import { join } from 'node:path';
import Database from 'libsql';
import type { Append, EventLog } from '../../server/log/log.ts';
import type { ReadModels } from '../../server/readmodels/readmodels.ts';
import { median } from './measure.ts';

/** Milliseconds at the median. */
export interface ReportTimes {
  readonly report: string;
  /** The first time of all. */
  readonly first: number;
  /** Nothing has changed since. */
  readonly again: number;
  /** A lot has been graded since. */
  readonly after: number;
  /** A bare count by group of the cells that it rests on. */
  readonly bare: number;
}

const GLAZE = 'marram-green';
const REPORTS: readonly (readonly [report: string, params: Readonly<Record<string, string>>, by: string])[] =
  [
    ['by-glaze', {}, 'glaze'],
    ['by-clay', {}, 'clay'],
    ['by-schedule', {}, 'schedule'],
    ['by-schedule', { role: 'bisque' }, 'bisque-schedule'],
    ['by-kiln', {}, 'kiln'],
    ['by-shelf', {}, 'shelf'],
    ['by-coats', {}, 'coats'],
    ['by-method', {}, 'method'],
    ['by-layers', {}, 'layers'],
    ['glaze-on-clay', {}, 'glaze-clay'],
    ['glaze-on-schedule', {}, 'glaze-schedule'],
    ['by-glaze', { outcome: 'pinholes' }, 'glaze'],
    ['glaze-within-schedule', { glaze: GLAZE }, 'glaze-stratum'],
    ['before-after', { date: '2025-01-01' }, 'all'],
    ['chart', { kiln: 'big-round' }, 'kiln'],
    ['repairs', {}, 'all'],
  ];

const TIMES = 7;

async function timed(work: () => Promise<unknown>): Promise<number> {
  const began = performance.now();
  await work();
  return performance.now() - began;
}

async function several(work: (n: number) => Promise<unknown>, before?: (n: number) => Promise<unknown>) {
  const times: number[] = [];
  for (let n = 0; n < TIMES; n++) {
    await before?.(n);
    times.push(await timed(() => work(n)));
  }
  return median(times);
}

/** @param grade records one more lot, fired and graded on the last days of the log */
export async function timeReports(
  models: ReadModels,
  dir: string,
  grade: () => Promise<void>,
): Promise<ReportTimes[]> {
  const db = new Database(join(dir, 'read', 'defect-rates.db'));
  const counting = db.prepare('SELECT key, count(*), sum(pieces) FROM rates WHERE by = ? GROUP BY key');
  const found: ReportTimes[] = [];
  for (const [report, params, by] of REPORTS) {
    const ask = () => models.report('defect-rates', report, params);
    const first = await timed(ask);
    const again = await several(ask);
    const after = await several(ask, async () => {
      await grade();
      await models.waitFor();
    });
    const bare = await several(async () => counting.all([by]));
    const said = Object.values(params).join(' ');
    found.push({ report: said ? `${report} (${said})` : report, first, again, after, bare });
  }
  db.close();
  return found;
}

export interface WorstTimes {
  readonly first: number;
  readonly again: number;
  readonly after: number;
  /** Longest time for which the event loop answered nobody meanwhile. */
  readonly pause: number;
}

/** Of all the years: some hundred thousand seconds and wasters. */
export async function timeWorstGlaze(models: ReadModels, grade: () => Promise<void>): Promise<WorstTimes> {
  const ask = () => models.report('seconds-tally', 'worst-glaze', {});
  const watch = watchPauses();
  const first = await timed(ask);
  const pause = watch();
  const again = await several(ask);
  await grade();
  await models.waitFor();
  return { first, again, after: await timed(ask), pause };
}

function watchPauses(): () => number {
  let last = performance.now();
  let longest = 0;
  const timer = setInterval(() => {
    longest = Math.max(longest, performance.now() - last - 1);
    last = performance.now();
  }, 1);
  return () => {
    clearInterval(timer);
    return longest;
  };
}

/** Appends what it takes for one more lot to be counted: begun, packed, fired and graded on one day. */
export function grading(log: EventLog, day: string): () => Promise<void> {
  let lots = 0;
  return async () => {
    lots += 1;
    const piece = `0190aaaa-0000-7000-8000-${String(lots).padStart(12, '0')}`;
    const firing = `0190bbbb-0000-7000-8000-${String(lots).padStart(12, '0')}`;
    const own = [`piece:${piece}`];
    const both = [`firing:${firing}`, ...own];
    const fired = { firing, role: 'glaze' };
    const entries = [
      ['piece.begun', own, { piece, count: 6, form: 'bowl', clay: 'fell-white', owner: { kind: 'own' } }],
      ['glaze.applied', own, { piece, zone: 'outside', layers: [{ glaze: GLAZE, coats: 2 }] }],
      [
        'firing.packed',
        both,
        { ...fired, kiln: 'big-round', schedule: 'glaze-6-plain', places: [{ piece, count: 6, shelf: 1 }] },
      ],
      ['firing.lit', both, fired],
      ['firing.ended', both, fired],
      ['firing.drawn', both, fired],
      ['piece.graded', own, { piece, first: 5, second: 1, waster: 0 }],
    ] as const;
    const append: Append = {
      command: `0190cccc-0000-7000-8000-${String(lots).padStart(12, '0')}`,
      fingerprint: String(lots).padStart(64, '0'),
      who: 'ansa',
      device: 'bench',
      expect: {},
      entries: entries.map(([name, streams, data]) => ({
        ...{ name, version: 1, happenedAt: day, streams: [...streams], data },
      })),
    };
    await log.append(append);
  };
}
