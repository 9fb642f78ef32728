import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Bench, openBench } from '../support/bench.ts';
import { HOMES, type Housed } from '../support/homes.ts';

describe.each(HOMES.filter((home) => home.runsHere))('with the log $name', (home) => {
  let housed: Housed;
  let bench: Bench;
  beforeAll(async () => {
    housed = await home.make();
    bench = await openBench({ log: housed.log });
  });
  afterAll(async () => {
    await bench.people.close();
    await housed.end();
  });

  test('a day’s work is recorded, repeated harmlessly, refused where it cannot be, and struck out', async () => {
    const orders = [
      bench.order('stamp.cut', { stamp: 'fern', label: 'Fern' }, { happenedAt: '2026-05-01' }),
      bench.order('stamp.lend', { stamp: 'fern', to: 'Tova' }, { happenedAt: '2026-05-02' }),
      bench.order('stamp.cut', { stamp: 'other', label: 'Fern' }, { happenedAt: '2026-05-02' }),
      bench.order('stamp.note', { stamp: 'fern', note: 'chipped' }, { happenedAt: '2026-05-03' }),
    ];
    const outcomes = await bench.recordAll(orders);
    expect(outcomes.map(({ outcome }) => outcome)).toEqual(['recorded', 'recorded', 'refused', 'recorded']);
    const again = await bench.recordAll(orders);
    expect(again.map(({ outcome }) => outcome)).toEqual(['repeated', 'repeated', 'refused', 'repeated']);
    const undo = await bench.ask('entry.strike', { seqs: [1], withResting: true });
    expect(undo).toMatchObject({ outcome: 'recorded', first: 4, last: 6 });
    expect(await bench.ask('stamp.cut', { stamp: 'other', label: 'Fern' })).toMatchObject({
      outcome: 'recorded',
    });
    expect((await bench.log.verify()).broken).toBeUndefined();
  });

  test('many clients at once each get their own entry', async () => {
    const { count } = await bench.log.head();
    const outcomes = await Promise.all(
      Array.from({ length: 50 }, (_, n) => bench.ask('stamp.cut', { stamp: `s${n}`, label: `L${n}` })),
    );
    const firsts = outcomes.map((outcome) => outcome.outcome === 'recorded' && outcome.first);
    expect(firsts).toEqual(Array.from({ length: 50 }, (_, n) => count + n + 1));
  });
});
