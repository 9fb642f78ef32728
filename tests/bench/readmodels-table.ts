/** The read models' part of the benchmark, as a table: a million events when not said otherwise. */
import { mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import defectRates from '../../plugins/defect-rates/index.ts';
import secondsTally from '../../plugins/seconds-tally/index.ts';
import { openLog } from '../../server/log/open.ts';
import { studio } from '../../server/studio/studio.ts';
import { type ReadModelTimes, timeReadModels } from './readmodels.ts';
import { makeStudioLog } from './studio-log.ts';

/** Times a bare scan and parse, at most, for the rebuild of the core lists and the rates. */
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
    const plugins = [studio, secondsTally, defectRates];
    const times = await timeReadModels(log, join(dir, 'log.db'), dir, plugins, '2025-01-01');
    await log.close();
    return tableOf(times);
  } finally {
    rmSync(dir, { recursive: true, force: true });
  }
}

const said = (reached: boolean): string => (reached ? 'reached' : 'not reached');

export function tableOf(times: ReadModelTimes): ReadModelBench {
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
      'rebuild of the core lists, seconds-tally and defect-rates',
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
  const lines = [
    '| what | measured | aim |',
    '|---|---|---|',
    ...rows.map((row) => `| ${row.join(' | ')} |`),
  ];
  const found = reportsTable(times);
  return { text: `${lines.join('\n')}\n\n${found.text}`, reached: rebuilt && quick && found.reached };
}

/** Milliseconds at the median for a report, nothing changed or a lot graded since; and for the worst glaze drawn anew. */
const REPORT_AIM = 100;
const DRAW_AIM = 2_000;

function reportsTable({ reports, worst }: ReadModelTimes): ReadModelBench {
  const ms = (time: number) => `${time < 10 ? time.toFixed(1) : time.toFixed(0)} ms`;
  const ratio = (time: number, bare: number) => (time / bare).toFixed(2);
  const rows = reports.map(({ report, first, again, after, bare }) => [
    ...[report, ms(bare), ms(again), ratio(again, bare), ms(after), ratio(after, bare), ms(first)],
    `${REPORT_AIM} ms: ${said(again < REPORT_AIM && after < REPORT_AIM)}`,
  ]);
  const drawn = Math.max(worst.first, worst.after);
  rows.push([
    ...['seconds-tally worst-glaze', '', ms(worst.again), '', ms(worst.after), '', ms(worst.first)],
    `drawn under ${DRAW_AIM / 1000} s: ${said(drawn < DRAW_AIM)}; nobody was answered for ${ms(worst.pause)} at most`,
  ]);
  const text = [
    '| report | bare count | asked again | to bare | a lot graded since | to bare | first of all | aim |',
    '|---|--:|--:|--:|--:|--:|--:|---|',
    ...rows.map((row) => `| ${row.join(' | ')} |`),
  ].join('\n');
  const quick = reports.every(({ again, after }) => again < REPORT_AIM && after < REPORT_AIM);
  return { text, reached: quick && drawn < DRAW_AIM };
}
