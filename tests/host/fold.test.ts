import { describe, expect, test } from 'vitest';
import type { Entry } from '../../server/contract/entry.ts';
import { stateOf } from '../../server/host/fold.ts';
import type { Past } from '../../server/host/host.ts';
import { buildRegistry } from '../../server/host/registry.ts';
import { type Stamp, stamps } from '../support/stamps.ts';

const registry = buildRegistry([stamps]);
let seq = 0;
const entry = (name: string, happenedAt: string, recordedAt: string, data: object): Entry => {
  seq += 1;
  return {
    seq,
    command: `c${seq}`,
    part: 0,
    name,
    version: 1,
    happenedAt,
    recordedAt,
    who: 'ansa',
    device: 'bench',
    streams: ['stamp:fern'],
    data,
  };
};

seq = 0;
/** Cut on the 1st; the lending of the 2nd was noted on the 10th and struck on the 20th, in British Summer Time. */
const entries = [
  entry('stamp.cut', '2026-05-01', '2026-05-01T09:00:00.000Z', { stamp: 'fern', name: 'Fern' }),
  entry('stamp.lent', '2026-05-02', '2026-05-10T09:00:00.000Z', { stamp: 'fern', to: 'Tova' }),
  entry('entry.struck', '2026-05-20', '2026-05-20T22:59:59.999Z', { seq: 2 }),
  entry('stamp.lent', '2026-05-25', '2026-05-25T23:00:00.000Z', { stamp: 'fern', to: 'Odd' }),
];
const state = (past?: Past) => stateOf('stamp:fern', entries, registry, past, 'Europe/London') as Stamp;

test('the state of a stream leaves out what was struck, and reads old shapes', () => {
  expect(state()).toMatchObject({ label: 'Fern', lentTo: 'Odd', lent: 1 });
});

describe('as at a day', () => {
  test('is what had happened by its end', () => {
    expect(state({ asAt: '2026-05-24' }).lent).toBe(0);
    expect(state({ asAt: '2026-05-25' }).lentTo).toBe('Odd');
    expect(state({ asAt: '2026-04-30' }).label).toBeUndefined();
  });

  test('leaves out what was struck later', () => {
    expect(state({ asAt: '2026-05-05' }).lent).toBe(0);
  });
});

describe('known at a day', () => {
  test('is what had been recorded by the end of that day in the studio', () => {
    expect(state({ knownAt: '2026-05-09' }).lent).toBe(0);
    expect(state({ knownAt: '2026-05-10' }).lentTo).toBe('Tova');
  });

  test('counts a strike from the day it was recorded', () => {
    expect(state({ knownAt: '2026-05-19' }).lentTo).toBe('Tova');
    expect(state({ knownAt: '2026-05-20' }).lent).toBe(0);
  });

  test('ends the day by the studio’s clock: midnight there is eleven o’clock in Greenwich in summer', () => {
    expect(state({ knownAt: '2026-05-25' }).lent).toBe(0);
    expect(state({ knownAt: '2026-05-26' }).lentTo).toBe('Odd');
  });

  test('can be asked together with what had happened', () => {
    expect(state({ knownAt: '2026-05-15', asAt: '2026-05-01' }).lent).toBe(0);
    expect(state({ knownAt: '2026-05-15', asAt: '2026-05-02' }).lentTo).toBe('Tova');
  });
});

test('a stream that no plugin knows has no state', () => {
  expect(stateOf('shelf:1', entries, registry)).toBeUndefined();
});
