import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { History } from '../../server/host/history.ts';
import type { Outcome } from '../../server/host/host.ts';
import { type Bench, openBench } from '../support/bench.ts';
import type { Stamp } from '../support/stamps.ts';

let bench: Bench;
beforeEach(async () => {
  bench = await openBench();
});
afterEach(() => bench.end());

const state = async <State>(stream: string): Promise<State> =>
  new History(
    bench.registry,
    stream,
    (await bench.log.streams([stream])).get(stream)!.entries,
  ).latest() as State;
const refusal = (outcome: Outcome) => {
  if (outcome.outcome !== 'refused') throw new Error(`it was ${outcome.outcome}`);
  return outcome.refusal;
};
const strike = (...seqs: number[]) => bench.ask('entry.strike', { seqs });
/** A stamp cut on the 1st of May, lent to Tova on the 2nd, back on the 3rd, lent to Odd on the 4th: entries 1 to 4. */
const lendTwice = () =>
  bench.recordAll([
    bench.order('stamp.cut', { stamp: 'fern', label: 'Fern' }, { happenedAt: '2026-05-01' }),
    bench.order('stamp.lend', { stamp: 'fern', to: 'Tova' }, { happenedAt: '2026-05-02' }),
    bench.order('stamp.return', { stamp: 'fern' }, { happenedAt: '2026-05-03' }),
    bench.order('stamp.lend', { stamp: 'fern', to: 'Odd' }, { happenedAt: '2026-05-04' }),
  ]);

describe('striking out an entry', () => {
  test('takes it away, and leaves it in the log with the reason', async () => {
    await lendTwice();
    expect(await bench.ask('entry.strike', { seqs: [4], why: 'it was Tova again' })).toMatchObject({
      outcome: 'recorded',
      first: 5,
    });
    expect(await state<Stamp>('stamp:fern')).toMatchObject({ lent: 1, lentTo: undefined });
    const [struck] = await bench.log.read(4, 1);
    expect(struck).toMatchObject({
      name: 'entry.struck',
      streams: ['stamp:fern'],
      data: { seq: 4, why: { text: expect.any(String) } },
    });
    expect(JSON.stringify(struck)).not.toContain('Tova');
  });

  test('that is struck out already changes nothing', async () => {
    await lendTwice();
    await strike(4);
    expect(await strike(4)).toMatchObject({ outcome: 'unchanged' });
  });

  test('that is not there is refused', async () => {
    expect(refusal(await strike(9))).toMatchObject({
      code: 'no-such-entry',
      sentence: 'There is no entry 9.',
      field: 'seqs.0',
    });
    expect(refusal(await bench.ask('entry.strike', { command: 'none' }))).toMatchObject({
      code: 'no-such-entry',
    });
  });

  test('must be told by entries or by command, not both', async () => {
    expect(refusal(await bench.ask('entry.strike', {})).code).toBe('bad-input');
    expect(refusal(await bench.ask('entry.strike', { seqs: [1], command: 'c' })).code).toBe('bad-input');
  });

  test('on which others rest is refused, and they are listed with the reason', async () => {
    await lendTwice();
    const refused = refusal(await strike(3));
    expect(refused).toMatchObject({
      code: 'others-rest-on-it',
      others: [
        {
          seq: 4,
          name: 'stamp.lent',
          happenedAt: '2026-05-04',
          why: 'Stamp Fern is lent to Tova; it must come back first.',
        },
      ],
    });
    expect(refused.sentence).toMatch(/Without entry 3, stamp returned on 3 May 2026/);
    expect(await bench.recorded()).toHaveLength(4);
  });

  test('on which others rest takes them along when that is asked for, in one command', async () => {
    await lendTwice();
    const outcome = await bench.ask('entry.strike', { seqs: [1], withResting: true });
    expect(outcome).toMatchObject({ outcome: 'recorded', first: 5, last: 8 });
    expect(await state<Stamp>('stamp:fern')).toEqual({ stamp: 'fern', lent: 0, notes: [] });
  });
});

describe('undoing a command', () => {
  test('takes away all that it recorded', async () => {
    await lendTwice();
    await bench.ask('stamp.return', { stamp: 'fern' }, { happenedAt: '2026-05-05' });
    const order = bench.order(
      'stamp.lend-and-return',
      { stamp: 'fern', to: 'Mab' },
      { happenedAt: '2026-05-06' },
    );
    await bench.record(order);
    expect(await bench.ask('entry.strike', { command: order.id })).toMatchObject({
      outcome: 'recorded',
      first: 8,
      last: 9,
    });
    expect((await state<Stamp>('stamp:fern')).lent).toBe(2);
  });

  test('can be undone', async () => {
    await lendTwice();
    const before = await state<Stamp>('stamp:fern');
    const undo = bench.order('entry.strike', { seqs: [1], withResting: true });
    await bench.record(undo);
    expect(await bench.ask('entry.strike', { command: undo.id })).toMatchObject({
      outcome: 'recorded',
      first: 9,
      last: 12,
    });
    expect(await state<Stamp>('stamp:fern')).toEqual(before);
  });
});

describe('bringing back what was struck out', () => {
  test('is refused where it cannot stand any more, with the reason', async () => {
    await lendTwice();
    await strike(3, 4);
    const refused = refusal(await strike(5));
    expect(refused.code).toBe('not-possible-then');
    expect(refused.sentence).toMatch(
      /^Entry 4, stamp lent on 4 May 2026, cannot be brought back: Stamp Fern is lent to Tova/,
    );
  });

  test('that makes a later entry impossible lists that one', async () => {
    await lendTwice();
    await strike(4);
    await bench.ask('stamp.lend', { stamp: 'fern', to: 'Mab' }, { happenedAt: '2026-05-06' });
    expect(refusal(await strike(5)).others).toMatchObject([{ seq: 6, name: 'stamp.lent' }]);
  });
});

describe('what a struck entry had claimed', () => {
  test('is free again', async () => {
    await lendTwice();
    await bench.ask('entry.strike', { seqs: [1], withResting: true });
    expect(await bench.ask('stamp.cut', { stamp: 'other', label: 'Fern' })).toMatchObject({
      outcome: 'recorded',
    });
  });

  test('is claimed again when it comes back', async () => {
    await bench.ask('stamp.cut', { stamp: 'fern', label: 'Fern' });
    await strike(1);
    await strike(2);
    expect(refusal(await bench.ask('stamp.cut', { stamp: 'other', label: 'Fern' }))).toMatchObject({
      code: 'already-taken',
    });
    await strike(3);
    expect(await bench.ask('stamp.cut', { stamp: 'other', label: 'Fern' })).toMatchObject({
      outcome: 'recorded',
    });
  });

  test('keeps it from coming back when another has it by then, and is not taken from that one', async () => {
    await bench.ask('stamp.cut', { stamp: 'fern', label: 'Fern' });
    await strike(1);
    await bench.ask('stamp.cut', { stamp: 'other', label: 'Fern' });
    expect(refusal(await strike(2))).toMatchObject({
      code: 'already-taken',
      sentence: expect.stringMatching(/by entry 3, stamp cut/),
    });
    expect(await bench.log.holders(['stamp-label:Fern'])).toEqual(new Map([['stamp-label:Fern', 3]]));
  });
});

test('what is foreseen of a strike is what it does', async () => {
  const cut = bench.order('stamp.cut', { stamp: 'fern', label: 'Fern' });
  const undo = bench.order('entry.strike', { command: cut.id });
  const orders = [cut, undo, bench.order('stamp.cut', { stamp: 'other', label: 'Fern' })];
  const foreseen = await bench.foresee(orders);
  expect(await bench.recorded()).toEqual([]);
  expect(await bench.recordAll(orders)).toEqual(foreseen);
  expect(foreseen.map(({ outcome }) => outcome)).toEqual(['recorded', 'recorded', 'recorded']);
});
