import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Entry } from '../../server/contract/entry.ts';
import { History } from '../../server/host/history.ts';
import type { Outcome } from '../../server/host/host.ts';
import { effective } from '../../server/host/order.ts';
import { StreamMoved } from '../../server/log/log.ts';
import { anyCommand, ordersOn, STAMP_STREAMS } from '../support/any-stamps.ts';
import { type Bench, openBench } from '../support/bench.ts';

const anyOrders = fc.array(anyCommand, { minLength: 1, maxLength: 40 });

/** Salts differ from store to store. */
const withoutHashes = (entries: readonly Entry[]): string =>
  JSON.stringify(entries).replaceAll(/"hash":"[0-9a-f]+"/g, '"hash":""');

async function onBenches<T>(count: number, work: (...benches: Bench[]) => Promise<T>): Promise<T> {
  const benches = await Promise.all(Array.from({ length: count }, () => openBench()));
  try {
    return await work(...benches);
  } finally {
    for (const bench of benches) await bench.end();
  }
}

describe('for any list of commands', () => {
  test('recording them together is recording them one by one', async () => {
    await fc.assert(
      fc.asyncProperty(anyOrders, (list) =>
        onBenches(2, async (together, apart) => {
          const outcomes = await together.recordAll(ordersOn(together, list));
          const each: Outcome[] = [];
          for (const order of ordersOn(apart, list)) each.push(await apart.record(order));
          expect(outcomes).toEqual(each);
          expect(withoutHashes(await together.log.read(0, 999))).toBe(
            withoutHashes(await apart.log.read(0, 999)),
          );
        }),
      ),
      { seed: 11, numRuns: 30 },
    );
  });

  test('foreseeing them is what recording them does', async () => {
    await fc.assert(
      fc.asyncProperty(anyOrders, (list) =>
        onBenches(1, async (bench) => {
          const orders = ordersOn(bench, list);
          expect(await bench.foresee(orders)).toEqual(await bench.recordAll(orders));
        }),
      ),
      { seed: 12, numRuns: 30 },
    );
  });

  test('whatever their days, everything that was recorded can stand where it stands', async () => {
    await fc.assert(
      fc.asyncProperty(anyOrders, (list) =>
        onBenches(1, async (bench) => {
          await bench.recordAll(ordersOn(bench, list));
          for (const [stream, { entries }] of await bench.log.streams(STAMP_STREAMS))
            expect(new History(bench.registry, stream, entries).standing().size).toBe(
              effective(entries).length,
            );
        }),
      ),
      { seed: 13, numRuns: 50 },
    );
  });

  test('a stream that grew entry by entry is as one that was read in one go', async () => {
    await fc.assert(
      fc.asyncProperty(anyOrders, (list) =>
        onBenches(1, async (bench) => {
          await bench.recordAll(ordersOn(bench, list));
          for (const [stream, { entries }] of await bench.log.streams(STAMP_STREAMS)) {
            const grown = new History(bench.registry, stream);
            for (const command of new Set(entries.map((entry) => entry.command)))
              grown.add(entries.filter((entry) => entry.command === command));
            expect(grown.latest()).toEqual(new History(bench.registry, stream, entries).latest());
          }
        }),
      ),
      { seed: 14, numRuns: 30 },
    );
  });
});

describe('two studios’ servers on one log', () => {
  test('lose nothing, and neither records what the other has made impossible', async () => {
    const one = await openBench();
    const other = await openBench({ log: one.log });
    await one.recordAll(
      ordersOn(
        one,
        ['a', 'b', 'c'].map((stamp) => ({ command: 'stamp.cut', stamp, other: stamp, when: '2026-05-01' })),
      ),
    );
    const lend = (bench: Bench, n: number) =>
      bench.ask(
        'stamp.lend-and-return',
        { stamp: 'abc'[n % 3], to: 'Tova' },
        { id: `${bench === one ? 'one' : 'other'}-${n}`, happenedAt: '2026-05-02' },
      );
    const outcomes = await Promise.all(Array.from({ length: 60 }, (_, n) => lend(n % 2 ? one : other, n)));
    expect(new Set(outcomes.map(({ outcome }) => outcome))).toEqual(new Set(['recorded']));
    for (const [stream, { entries }] of await one.log.streams(STAMP_STREAMS)) {
      expect(entries).toHaveLength(41);
      expect(new History(one.registry, stream, entries).standing().size).toBe(41);
    }
    await one.end();
  });

  test('do not both take the same label', async () => {
    const one = await openBench();
    const other = await openBench({ log: one.log });
    const outcomes = await Promise.all([
      one.ask('stamp.cut', { stamp: 'a', label: 'Fern' }, { id: 'one' }),
      other.ask('stamp.cut', { stamp: 'b', label: 'Fern' }, { id: 'other' }),
    ]);
    expect(outcomes.map(({ outcome }) => outcome).sort()).toEqual(['recorded', 'refused']);
    await one.end();
  });
});

describe('the log', () => {
  test('does not take what was reckoned on other seqs than it would get', async () => {
    const bench = await openBench();
    await bench.ask('stamp.cut', { stamp: 'a' });
    const entry = {
      name: 'stamp.lent',
      version: 1,
      happenedAt: '2026-05-02',
      streams: ['stamp:a'],
      data: { stamp: 'a', to: 'Tova' },
    };
    const append = {
      command: 'c',
      fingerprint: 'f',
      who: 'ansa',
      device: 'bench',
      expect: {},
      entries: [entry],
    };
    await expect(bench.log.append({ ...append, first: 3 })).rejects.toThrow(StreamMoved);
    await expect(bench.log.append({ ...append, first: 2 })).resolves.toMatchObject({ first: 2 });
    await bench.end();
  });

  test('says which commands it holds, and which claims', async () => {
    const bench = await openBench();
    const order = bench.order('stamp.cut', { stamp: 'a', label: 'Fern' });
    await bench.record(order);
    expect(await bench.log.receipts([order.id, 'none'])).toEqual(
      new Map([
        [
          order.id,
          { outcome: 'repeated', first: 1, last: 1, fingerprint: expect.stringMatching(/^[0-9a-f]{64}$/) },
        ],
      ]),
    );
    expect(await bench.log.holders(['stamp-label:Fern', 'stamp-label:Shell'])).toEqual(
      new Map([['stamp-label:Fern', 1]]),
    );
    await bench.end();
  });
});

test('a plugin’s mistake fails its own command only', async () => {
  const bench = await openBench();
  const wrong = bench.order('stamp.lend', { stamp: 'a', to: 'Tova' });
  const { it } = bench.registry.command('stamp.lend')!;
  const faulty = {
    ...bench.registry,
    command: (name: string) =>
      name === 'stamp.lend'
        ? {
            plugin: 'stamps',
            name,
            it: { ...it, decide: () => [{ name: 'stamp.lent', streams: ['stamp:a'], data: {} }] },
          }
        : bench.registry.command(name),
  };
  const { makeRecorder } = await import('../../server/host/record.ts');
  const recorder = makeRecorder({
    registry: faulty,
    log: bench.log,
    people: bench.people,
    clock: () => new Date('2026-06-30T11:00:00Z'),
    settings: async () => ({ zone: 'UTC' }),
  });
  const [first, second, third] = await Promise.allSettled([
    recorder.record(bench.order('stamp.cut', { stamp: 'a' })),
    recorder.record(wrong),
    recorder.record(bench.order('stamp.cut', { stamp: 'b' })),
  ]);
  expect([first.status, second.status, third.status]).toEqual(['fulfilled', 'rejected', 'fulfilled']);
  expect((second as PromiseRejectedResult).reason.message).toMatch(
    /Plugin “stamps”, command stamp.lend: the data of stamp.lent does not fit/,
  );
  await bench.end();
});
