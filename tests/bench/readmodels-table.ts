/** The read models' part of the benchmark, as a table: a million events when not said otherwise. */
import { mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import secondsTally from '../../plugins/seconds-tally/index.ts';
import { openLog } from '../../server/log/open.ts';
import { studio } from '../../server/studio/studio.ts';
import { type ReadModelTimes, timeReadModels } from './readmodels.ts';
import { makeStudioLog } from './studio-log.ts';

/** Times a bare scan and parse, at most, for the rebuild of the core lists and the tally. */
const REBUILD_AIM = 5;
/** Milliseconds at the median for a page of a list of the present. */
const PAGE_AIM = 50;

export interface ReadModelBench {
  readonly text: string;
  readonly reached: boolean;
}

export async function benchReadModels(folder: string, events: number): Promise<ReadModelBench> {
  const dir = mkdtempSync(join(folder, 'read-'));
  try {
    const log = await openLog({ dir, clock: () => new Date('2026-04-30T09:00:00Z') });
    await makeStudioLog(log, events);
    const plugins = [studio, secondsTally];
    const times = await timeReadModels(log, join(dir, 'log.db'), dir, plugins, '2025-01-01');
    await log.close();
    return tableOf(times);
  } finally {
    rmSync(dir, { recursive: true, force: true });
  }
}

const said = (reached: boolean): string => (reached ? 'reached' : 'not reached');

function tableOf(times: ReadModelTimes): ReadModelBench {
  const ratio = times.rebuild / times.scan;
  const rebuilt = ratio <= REBUILD_AIM;
  const quick = times.page < PAGE_AIM;
  const rows = [
    [
      `bare scan and parse of ${times.events.toLocaleString('en-GB')} events`,
      `${times.scan.toFixed(1)} s`,
      '',
    ],
    [
      'rebuild of the core lists and seconds-tally',
      `${times.rebuild.toFixed(1)} s, ${ratio.toFixed(1)} times the scan`,
      `at most ${REBUILD_AIM} times: ${said(rebuilt)}`,
    ],
    ['longest time that nobody was answered meanwhile', `${Math.round(times.longestPause)} ms`, ''],
    ['memory at its highest', `${Math.round(times.memory)} MB`, ''],
    ['a page of the list of ware', `${times.page.toFixed(1)} ms`, `under ${PAGE_AIM} ms: ${said(quick)}`],
    [
      'the same as at a day',
      `${times.pageAsAt.toFixed(1)} ms; the first time ${times.firstAsAt.toFixed(1)} s`,
      '',
    ],
    ['the same as known at a day', `${times.pageKnownAt.toFixed(1)} ms`, ''],
  ];
  const text = [
    '| what | measured | aim |',
    '|---|---|---|',
    ...rows.map((row) => `| ${row.join(' | ')} |`),
  ].join('\n');
  return { text, reached: rebuilt && quick };
}
