import { spawnSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

const program = fileURLToPath(new URL('../../.ci/outcome.mjs', import.meta.url));
type Status = 'passed' | 'failed' | 'pending';

/** What the continuous check says of a run with these tests. */
function outcomeOf(tests: Record<string, Status>, success = true) {
  const path = join(mkdtempSync(join(tmpdir(), 'wareboard-outcome-')), 'tests.json');
  const assertionResults = Object.entries(tests).map(([fullName, status]) => ({ fullName, status }));
  writeFileSync(
    path,
    JSON.stringify({ success, testResults: [{ name: '/checkout/tests/log/log.test.ts', assertionResults }] }),
  );
  const { status, stdout } = spawnSync(process.execPath, [program, path], { encoding: 'utf8' });
  return { status, lines: stdout.trimEnd().split('\n') };
}

const onServer = { 'the log, on a libsql server, keeps entries': 'passed' } as const;

test('a run in which all passed is counted in the last line', () => {
  const { status, lines } = outcomeOf({ ...onServer, 'a pot is begun': 'passed' });
  expect(status).toBe(0);
  expect(lines).toEqual(['2 passed, 0 failed, 0 skipped']);
});

test('a test that only speaks of the server is not taken for one', () => {
  const { status } = outcomeOf({ 'a run without the real libsql server fails': 'passed' });
  expect(status).toBe(process.platform === 'linux' ? 1 : 0);
});

test('a run that left no report fails the check, and is still counted', () => {
  const { status, stdout } = spawnSync(process.execPath, [program, '/nowhere/tests.json'], {
    encoding: 'utf8',
  });
  expect(status).toBe(1);
  expect(stdout.trimEnd().split('\n').at(-1)).toBe('0 passed, 0 failed, 0 skipped');
});

test('a failed test fails the check', () => {
  const { status, lines } = outcomeOf({ ...onServer, 'a pot is begun': 'failed' }, false);
  expect(status).toBe(1);
  expect(lines.at(-1)).toBe('1 passed, 1 failed, 0 skipped');
});

test('a run that failed outside any test, or had none, fails the check', () => {
  expect(outcomeOf(onServer, false).status).toBe(1);
  expect(outcomeOf({}).status).toBe(1);
});

test.runIf(process.platform === 'linux')(
  'a run without the real libsql server fails the check on Linux',
  () => {
    expect(outcomeOf({ 'a pot is begun': 'passed' }).status).toBe(1);
    const { status, lines } = outcomeOf({
      'the log, on a libsql server, keeps entries': 'pending',
      'a pot is begun': 'passed',
    });
    expect(status).toBe(1);
    expect(lines[0]).toContain('skipped: /checkout/tests/log/log.test.ts: the log, on a libsql server');
    expect(lines.at(-1)).toBe('1 passed, 0 failed, 1 skipped');
  },
);
