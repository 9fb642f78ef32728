/** `node --import tsx tests/bench/readmodels-only.ts [EVENTS] [DIR]`: the read models' part of the benchmark alone. */
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import defectRates from '../../plugins/defect-rates/index.ts';
import secondsTally from '../../plugins/seconds-tally/index.ts';
import { openLog } from '../../server/log/open.ts';
import { studio } from '../../server/studio/studio.ts';
import { timeReadModels } from './readmodels.ts';
import { tableOf } from './readmodels-table.ts';
import { makeStudioLog } from './studio-log.ts';

const events = Number(process.argv[2] ?? 1_000_000);
const kept = process.argv[3];
const dir = kept ?? mkdtempSync(join(tmpdir(), 'wareboard-bench-'));
const made = existsSync(join(dir, 'log.db'));
const log = await openLog({ dir, clock: () => new Date('2026-04-30T09:00:00Z') });
if (!made) await makeStudioLog(log, events);
const times = await timeReadModels(
  log,
  join(dir, 'log.db'),
  dir,
  [studio, secondsTally, defectRates],
  '2025-01-01',
);
await log.close();
rmSync(join(dir, 'read'), { recursive: true, force: true });
if (!kept) rmSync(dir, { recursive: true, force: true });
console.log(tableOf(times).text);
