import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { type Holder, isLock, LOCK, type Lock, takeLock } from '../../server/cli/lock.ts';
import { temporary } from '../support/folder.ts';

const held = (dir: string): Holder => JSON.parse(readFileSync(join(dir, LOCK), 'utf8'));
const hold = (dir: string, holder: object | string) =>
  writeFileSync(join(dir, LOCK), typeof holder === 'string' ? holder : JSON.stringify(holder));
const deadPid = (): number => spawnSync(process.execPath, ['-e', '']).pid;

test('one works on a folder, and the next is told who', () => {
  const dir = temporary();
  const first = takeLock(dir, 'first') as Lock;
  expect(isLock(first)).toBe(true);
  const second = takeLock(dir, 'second');
  expect(isLock(second)).toBe(false);
  expect(second).toMatchObject({ pid: process.pid, machine: hostname(), instance: 'first' });
  first.release();
  expect(existsSync(join(dir, LOCK))).toBe(false);
  expect(isLock(takeLock(dir, 'third'))).toBe(true);
});

test('a server says in its lock where it can be reached', () => {
  const dir = temporary();
  const lock = takeLock(dir, 'server') as Lock;
  lock.publish('http://127.0.0.1:4280');
  expect(takeLock(dir, 'other')).toMatchObject({ address: 'http://127.0.0.1:4280' });
  expect(readdirSync(dir)).toEqual([LOCK]);
});

describe('a lock is taken over', () => {
  test('when its process has died', () => {
    const dir = temporary();
    hold(dir, { pid: deadPid(), machine: hostname(), instance: 'dead', address: 'http://127.0.0.1:4280' });
    expect(isLock(takeLock(dir, 'next'))).toBe(true);
    expect(held(dir)).toMatchObject({ pid: process.pid, instance: 'next' });
    expect(readdirSync(dir)).toEqual([LOCK]);
  });

  test('when it was torn in the writing', () => {
    const dir = temporary();
    hold(dir, '{"pid": 1');
    expect(isLock(takeLock(dir, 'next'))).toBe(true);
  });

  test.runIf(process.platform === 'linux')('when its number was given to another process since', () => {
    const dir = temporary();
    hold(dir, {
      pid: process.pid,
      machine: hostname(),
      born: '1',
      instance: 'before the machine was started again',
    });
    expect(isLock(takeLock(dir, 'next'))).toBe(true);
  });
});

test('a lock of another machine is left alone: its processes cannot be seen from here', () => {
  const dir = temporary();
  hold(dir, { pid: deadPid(), machine: 'another', instance: 'there' });
  expect(takeLock(dir, 'here')).toMatchObject({ machine: 'another' });
});

test('a lock that was taken over is not released by who had it before', () => {
  const dir = temporary();
  const lost = takeLock(dir, 'lost') as Lock;
  hold(dir, { pid: process.pid, machine: hostname(), instance: 'other' });
  lost.release();
  expect(held(dir).instance).toBe('other');
});
