/** The system calls of a recording process, seen from outside: the disk is synced before the answer. */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Plan } from './plan.ts';
import { bundleRecorder, type Recorder } from './trial.ts';

const straceRunsHere = spawnSync('strace', ['-o', '/dev/null', 'true']).status === 0;

if (!straceRunsHere)
  console.warn(
    '\n*** NOT TESTED: the system calls before an acknowledgement. The program strace is not here. ***\n',
  );

let recorder: Recorder;
beforeAll(async () => {
  recorder = await bundleRecorder();
});
afterAll(() => recorder.end());

/** In the order in which they were done, in all threads: what was written to, what was synced, what was said. */
function callsOf(plan: Plan): string[] {
  const dir = recorder.folder();
  const trace = join(dir, 'trace');
  const watch = ['-f', '-y', '-e', 'trace=pwrite64,write,fdatasync,fsync', '-o', trace];
  const ended = spawnSync('strace', [
    ...watch,
    process.execPath,
    recorder.program,
    dir,
    JSON.stringify(plan),
  ]);
  expect(ended.status).toBe(0);
  return readFileSync(trace, 'utf8')
    .split('\n')
    .flatMap((line) => {
      if (/write\(1<.*"acknowledged/.test(line)) return ['acknowledged'];
      const call = /(pwrite64|fdatasync|fsync)\(\d+<[^>]*(log\.db-wal|log\.head)>/.exec(line);
      return call === null ? [] : [`${call[2]} ${call[1] === 'pwrite64' ? 'written' : 'synced'}`];
    })
    .filter((call, at, calls) => call !== calls[at - 1]);
}

describe.skipIf(!straceRunsHere)('of each command', () => {
  test.each([false, true])(
    'the entries are written and synced, then the outside head, then it is acknowledged (on a thread: %s)',
    (thread) => {
      const calls = callsOf({ how: 'single', commands: 5, thread });
      const first = calls.indexOf('acknowledged');
      const commands = calls.slice(first + 1, calls.lastIndexOf('acknowledged') + 1);
      const each = [
        'log.db-wal written',
        'log.db-wal synced',
        'log.head written',
        'log.head synced',
        'acknowledged',
      ];
      expect(calls.slice(first - 4, first + 1)).toEqual(each);
      expect(commands).toEqual([...each, ...each, ...each, ...each]);
    },
  );
});
