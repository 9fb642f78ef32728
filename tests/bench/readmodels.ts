/**
 * How long the read models take: rebuilt from the whole log, as a ratio to a bare scan that only
 * parses the same log in the same run, and one page of the list of ware.
 */
import { join } from 'node:path';
import Database from 'libsql';
import type { Plugin, Settings } from '../../server/contract/plugin.ts';
import { buildRegistry } from '../../server/host/registry.ts';
import type { EventLog } from '../../server/log/log.ts';
import type { People } from '../../server/people/people.ts';
import { openReadModels, type ReadModels } from '../../server/readmodels/readmodels.ts';
import { grading, type ReportTimes, timeReports, timeWorstGlaze, type WorstTimes } from './reports.ts';

const SETTINGS: Settings = {
  studio: 'Hollin Yard Pottery',
  zone: 'Europe/London',
  currency: 'GBP',
  yearStart: '04-06',
};

const nobody = {
  read: async () => new Map(),
  names: async () => new Map(),
  search: async () => [],
} as unknown as People;

export interface ReadModelTimes {
  readonly events: number;
  /** Seconds. */
  readonly scan: number;
  readonly rebuild: number;
  /** Longest time for which the event loop answered nobody while rebuilding, in ms. */
  readonly longestPause: number;
  /** Resident memory at its highest while rebuilding, in MB. */
  readonly memory: number;
  /** Milliseconds, median of 101. */
  readonly page: number;
  readonly pageAsAt: number;
  readonly pageKnownAt: number;
  /** Seconds until the first page as at a day half way, when nothing of that day was asked before. */
  readonly firstAsAt: number;
  readonly reports: readonly ReportTimes[];
  readonly worst: WorstTimes;
}

/** Every body read and parsed, nothing else done with it. */
export function bareScan(logFile: string): number {
  const db = new Database(logFile);
  const began = performance.now();
  let parsed = 0;
  for (const row of db.prepare('SELECT body FROM entries ORDER BY seq').iterate() as Iterable<{
    body: string;
  }>)
    parsed += (JSON.parse(row.body) as { seq: number }).seq > 0 ? 1 : 0;
  const seconds = (performance.now() - began) / 1000;
  db.close();
  if (parsed === 0) throw new Error('nothing to scan');
  return seconds;
}

/** What is recorded while it is measured is of this day. */
const LAST_DAY = '2026-04-30';

/** @param halfway a day in the middle of what the log tells of, for the past */
export async function timeReadModels(
  log: EventLog,
  logFile: string,
  dir: string,
  plugins: readonly Plugin[],
  halfway: string,
): Promise<ReadModelTimes> {
  const { count } = await log.head();
  const scan = bareScan(logFile);
  const watch = watchLoop();
  const began = performance.now();
  const models = await openReadModels({
    registry: buildRegistry(plugins),
    log,
    people: nobody,
    dir: join(dir, 'read'),
    settings: async () => SETTINGS,
    clock: () => new Date('2026-05-01T09:00:00Z'),
    check: false,
  });
  await models.waitFor(count);
  const rebuild = (performance.now() - began) / 1000;
  const { longestPause, memory } = watch.stop();
  const failed = (await models.standing()).find((it) => it.failed);
  if (failed) throw new Error(failed.failed);
  const page = await medianPage(models, {});
  const grade = grading(log, LAST_DAY);
  const reports = await timeReports(models, dir, grade);
  const worst = await timeWorstGlaze(models, grade);
  const asked = performance.now();
  await models.report('studio', 'ware', { 'as-at': halfway });
  const firstAsAt = (performance.now() - asked) / 1000;
  const pageAsAt = await medianPage(models, { 'as-at': halfway });
  const pageKnownAt = await medianPage(models, { 'known-at': '2026-05-01' });
  await models.close();
  return {
    ...{ events: count, scan, rebuild, longestPause, memory, page, pageAsAt, pageKnownAt, firstAsAt },
    ...{ reports, worst },
  };
}

function watchLoop() {
  let last = performance.now();
  let longestPause = 0;
  let memory = 0;
  const timer = setInterval(() => {
    const now = performance.now();
    longestPause = Math.max(longestPause, now - last - 1);
    memory = Math.max(memory, process.memoryUsage.rss() / 1e6);
    last = now;
  }, 1);
  return {
    stop: () => {
      clearInterval(timer);
      return { longestPause, memory };
    },
  };
}

const PAGES: readonly Record<string, string>[] = [
  {},
  { stage: 'left' },
  { glaze: 'marram-green' },
  { fault: 'pinholes' },
  { clay: 'fell-white', grade: 'second' },
];

async function medianPage(models: ReadModels, past: Record<string, string>): Promise<number> {
  const times: number[] = [];
  await models.report('studio', 'ware', past);
  for (let i = 0; i < 101; i++) {
    const began = performance.now();
    await models.report('studio', 'ware', { ...PAGES[i % PAGES.length], ...past });
    times.push(performance.now() - began);
  }
  return times.sort((a, b) => a - b)[50]!;
}
