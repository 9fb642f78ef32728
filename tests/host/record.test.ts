import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { Entry } from '../../server/contract/entry.ts';
import { type Bench, NOW, openBench } from '../support/bench.ts';

let bench: Bench;
beforeEach(async () => {
  bench = await openBench();
});
afterEach(() => bench.end());

const cut = (stamp: string, label?: string) => ['stamp.cut', { stamp, ...(label ? { label } : {}) }] as const;
const refusal = (outcome: Awaited<ReturnType<Bench['ask']>>) => {
  if (outcome.outcome !== 'refused') throw new Error(`it was ${outcome.outcome}`);
  return outcome.refusal;
};

describe('recording one command', () => {
  test('what was decided is in the log, with who, where and when', async () => {
    const outcome = await bench.ask(...cut('fern', 'Fern'), { happenedAt: '2026-05-01' });
    expect(outcome).toMatchObject({ outcome: 'recorded', first: 1, last: 1 });
    expect(await bench.log.read(0, 9)).toMatchObject([
      {
        seq: 1,
        name: 'stamp.cut',
        version: 2,
        happenedAt: '2026-05-01',
        recordedAt: NOW,
        who: 'ansa',
        device: 'bench',
        streams: ['stamp:fern'],
        claims: ['stamp-label:Fern'],
        data: { stamp: 'fern', label: 'Fern' },
      },
    ]);
  });

  test('without a day it happened now, by the studio’s clock', async () => {
    await bench.ask(...cut('fern'));
    expect((await bench.log.read(0, 1))[0]!.happenedAt).toBe('2026-06-30T12:00:00+01:00');
  });

  test('a moment that a traveller’s phone gives is put into the studio’s time', async () => {
    await bench.ask(...cut('fern'), { happenedAt: '2026-05-02T00:30:00+09:00' });
    expect((await bench.log.read(0, 1))[0]!.happenedAt).toBe('2026-05-01T16:30:00+01:00');
  });

  test('what is so already records nothing', async () => {
    await bench.ask(...cut('fern'));
    await bench.ask('stamp.lend', { stamp: 'fern', to: 'Tova' });
    expect(await bench.ask('stamp.lend', { stamp: 'fern', to: 'Tova' })).toMatchObject({
      outcome: 'unchanged',
    });
    expect(await bench.recorded()).toEqual(['stamp.cut', 'stamp.lent']);
  });

  test('what cannot be is refused with the reason, and nothing is recorded', async () => {
    expect(refusal(await bench.ask('stamp.return', { stamp: 'fern' }))).toMatchObject({
      code: 'not-possible-then',
      sentence: 'This stamp was not cut yet at that time.',
    });
    expect(await bench.recorded()).toEqual([]);
  });
});

describe('asking again', () => {
  test('with the same id records nothing and gives the first receipt', async () => {
    const order = bench.order(...cut('fern', 'Fern'));
    const first = await bench.record(order);
    await bench.ask(...cut('shell', 'Shell'));
    expect(await bench.record(order)).toEqual({ ...first, outcome: 'repeated' });
    expect(await bench.recorded()).toHaveLength(2);
  });

  test('the same id at the same moment is one command', async () => {
    const order = bench.order(...cut('fern', 'Fern'));
    const outcomes = await Promise.all([bench.record(order), bench.record(order), bench.record(order)]);
    expect(outcomes.map(({ outcome }) => outcome).sort()).toEqual(['recorded', 'repeated', 'repeated']);
  });

  test('the same id for something else is refused', async () => {
    const order = bench.order(...cut('fern', 'Fern'));
    await bench.record(order);
    expect(refusal(await bench.record({ ...order, input: { stamp: 'shell' } }))).toMatchObject({
      code: 'command-reused',
    });
  });
});

describe('claims', () => {
  test('a label that was asked for and is taken is refused, and who has it is named', async () => {
    await bench.ask(...cut('fern', 'Fern'), { happenedAt: '2026-05-01' });
    expect(refusal(await bench.ask(...cut('other', 'Fern')))).toMatchObject({
      code: 'already-taken',
      sentence:
        'The stamp label “Fern” is taken already, by entry 1, stamp cut on 1 May 2026. Choose another one.',
    });
  });

  test('a label that the studio chooses is chosen again until it is free', async () => {
    const outcomes = await Promise.all(['a', 'b', 'c'].map((stamp) => bench.ask(...cut(stamp))));
    expect(outcomes.map(({ outcome }) => outcome)).toEqual(['recorded', 'recorded', 'recorded']);
    await bench.ask(...cut('d'));
    const labels = (await bench.log.read(0, 9)).map((entry) => (entry.data as { label: string }).label);
    expect(labels).toEqual(['S0', 'S1', 'S2', 'S3']);
  });
});

describe('free text', () => {
  test('goes into the erasable store; the log holds where it is', async () => {
    await bench.ask(...cut('fern', 'Fern'));
    await bench.ask('stamp.note', { stamp: 'fern', note: '  Tova chipped it ' });
    const { note } = (await bench.log.read(1, 1))[0]!.data as { note: { text: string; hash: string } };
    expect(note.hash).toMatch(/^[0-9a-f]{64}$/);
    expect(await bench.people.read([note.text])).toEqual(new Map([[note.text, 'Tova chipped it']]));
    expect(await bench.people.search('CHIPPED tova')).toEqual(['stamp:fern']);
    expect(JSON.stringify(await bench.log.read(0, 9))).not.toContain('chipped');
  });

  test('of a refused command is not kept', async () => {
    const order = bench.order('stamp.note', { stamp: 'none', note: 'chipped' });
    expect(refusal(await bench.record(order))).toMatchObject({ code: 'not-possible-then' });
    expect(await bench.people.read([`${order.id}.note`])).toEqual(new Map());
  });

  test('sent again is one text, and another text under the same id is refused', async () => {
    await bench.ask(...cut('fern', 'Fern'));
    const order = bench.order('stamp.note', { stamp: 'fern', note: 'chipped' });
    await bench.record(order);
    expect(await bench.record(order)).toMatchObject({ outcome: 'repeated' });
    expect(
      refusal(await bench.record({ ...order, input: { stamp: 'fern', note: 'cracked' } })),
    ).toMatchObject({
      code: 'command-reused',
    });
  });

  test('that the log cannot keep unchanged is refused', async () => {
    const refused = refusal(await bench.ask(...cut('fern\u0000', 'Fern')));
    expect(refused.code).toBe('bad-input');
  });
});

describe('many at once', () => {
  test('a list is judged in order, each after those before it', async () => {
    const outcomes = await bench.recordAll([
      bench.order(...cut('fern', 'Fern'), { happenedAt: '2026-05-01' }),
      bench.order('stamp.lend', { stamp: 'fern', to: 'Tova' }, { happenedAt: '2026-05-02' }),
      bench.order('stamp.lend', { stamp: 'fern', to: 'Odd' }, { happenedAt: '2026-05-03' }),
      bench.order('stamp.return', { stamp: 'fern' }, { happenedAt: '2026-05-04' }),
    ]);
    expect(outcomes.map(({ outcome }) => outcome)).toEqual(['recorded', 'recorded', 'refused', 'recorded']);
    expect(outcomes[3]).toMatchObject({ first: 3, last: 3 });
  });

  test('the same list again records nothing', async () => {
    const orders = Array.from({ length: 2_500 }, (_, n) => bench.order(...cut(`s${n}`, `L${n}`)));
    let told = 0;
    await bench.recordAll(orders, (done) => {
      told = done;
    });
    expect(told).toBe(2_500);
    const again = await bench.recordAll(orders);
    expect(new Set(again.map(({ outcome }) => outcome))).toEqual(new Set(['repeated']));
    expect((await bench.log.head()).count).toBe(2_500);
  });

  test('commands of many clients that wait together are recorded together, each in its turn', async () => {
    const outcomes = await Promise.all(
      Array.from({ length: 64 }, (_, n) => bench.ask(...cut(`s${n}`, `L${n}`))),
    );
    expect(outcomes.map((outcome) => outcome.outcome === 'recorded' && outcome.first)).toEqual(
      Array.from({ length: 64 }, (_, n) => n + 1),
    );
  });

  test('what is foreseen is what would be recorded, and nothing is', async () => {
    const orders = [
      bench.order(...cut('fern', 'Fern')),
      bench.order('stamp.lend', { stamp: 'fern', to: 'Tova' }),
      bench.order(...cut('other', 'Fern')),
      bench.order('stamp.note', { stamp: 'fern', note: 'chipped' }),
    ];
    const foreseen = await bench.foresee(orders);
    expect(await bench.recorded()).toEqual([]);
    expect(await bench.people.search('chipped')).toEqual([]);
    expect(foreseen).toEqual(await bench.recordAll(orders));
  });
});

test('somebody else who writes into the same log is noticed, and the command is decided on what they wrote', async () => {
  await bench.ask(...cut('fern', 'Fern'));
  const lent: Pick<Entry, 'name' | 'version' | 'happenedAt' | 'streams' | 'data'> = {
    name: 'stamp.lent',
    version: 1,
    happenedAt: '2026-06-30T09:00:00+01:00',
    streams: ['stamp:fern'],
    data: { stamp: 'fern', to: 'Odd' },
  };
  await bench.log.append({
    command: 'theirs',
    fingerprint: 'f',
    who: 'odd',
    device: 'other',
    expect: {},
    entries: [lent],
  });
  const refused = refusal(await bench.ask('stamp.lend', { stamp: 'fern', to: 'Tova' }));
  expect(refused.sentence).toMatch(/lent to Odd/);
});

test('a long list is foreseen as it would be recorded, what is sent twice in it included', async () => {
  const orders = Array.from({ length: 1_300 }, (_, n) => bench.order(...cut(`s${n}`, `L${n}`)));
  orders.push(
    bench.order('stamp.lend', { stamp: 's5', to: 'Tova' }),
    orders[7]!,
    bench.order(...cut('again', 'L9')),
  );
  const foreseen = await bench.foresee(orders);
  expect(foreseen.slice(-3).map(({ outcome }) => outcome)).toEqual(['recorded', 'repeated', 'refused']);
  expect(foreseen).toEqual(await bench.recordAll(orders));
});
