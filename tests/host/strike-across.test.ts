import fc from 'fast-check';
import { expect, test } from 'vitest';
import { History } from '../../server/host/history.ts';
import type { Outcome } from '../../server/host/host.ts';
import { effective } from '../../server/host/order.ts';
import { studio } from '../../server/studio/studio.ts';
import { anyCommands, ordersOn, STAMP_STREAMS } from '../support/any-stamps.ts';
import { openBench } from '../support/bench.ts';

const refusal = (outcome: Outcome) => {
  if (outcome.outcome !== 'refused') throw new Error(`it was ${outcome.outcome}`);
  return outcome.refusal;
};

test('across streams: what rests on a firing that could not have been goes with it, in every piece it held', async () => {
  const bench = await openBench({ plugins: [studio] });
  const state = async (stream: string) =>
    new History(bench.registry, stream, (await bench.log.streams([stream])).get(stream)!.entries).latest();
  const [first, second] = ['01980000-0000-7000-8000-00000000000a', '01980000-0000-7000-8000-00000000000b'];
  const on = (day: string, command: string, input: unknown) =>
    bench.order(command, input, { happenedAt: day });
  const outcomes = await bench.recordAll([
    on('2026-05-01', 'kiln.add', { id: 'big-round', name: 'Big Round' }),
    on('2026-05-01', 'piece.begin', { piece: first, mark: 'ACDE7' }),
    on('2026-05-01', 'piece.begin', { piece: second, mark: 'ACDF9' }),
    on('2026-05-04', 'firing.pack', {
      firing: 'b1',
      kiln: 'big-round',
      role: 'bisque',
      places: [{ piece: first }, { piece: second }],
    }),
    on('2026-05-05', 'firing.light', { firing: 'b1' }),
    on('2026-05-06', 'firing.end', { firing: 'b1' }),
    on('2026-05-07', 'firing.draw', { firing: 'b1' }),
    on('2026-05-08', 'piece.grade', { piece: second, first: 1 }),
  ]);
  expect(outcomes.map((it) => (it.outcome === 'refused' ? it.refusal.sentence : it.outcome))).toEqual(
    Array(8).fill('recorded'),
  );
  const before = await state(`piece:${second}`);
  const { others } = refusal(await bench.ask('entry.strike', { seqs: [2] }));
  expect(others?.map(({ name }) => name)).toEqual([
    'firing.packed',
    'firing.lit',
    'firing.ended',
    'firing.drawn',
    'piece.graded',
  ]);
  const all = bench.order('entry.strike', { seqs: [2], withResting: true });
  expect(await bench.record(all)).toMatchObject({ outcome: 'recorded' });
  expect(await state(`piece:${second}`)).toMatchObject({ portions: [{ piece: second, stage: 'made' }] });
  await bench.ask('entry.strike', { command: all.id });
  expect(await state(`piece:${second}`)).toEqual(before);
  await bench.end();
});

test('for any history, striking any entry with what rests on it leaves only what can stand, and undoing that restores everything', async () => {
  await fc.assert(
    fc.asyncProperty(anyCommands, fc.nat(), async (commands, pick) => {
      const here = await openBench();
      try {
        await here.recordAll(ordersOn(here, commands));
        const { count } = await here.log.head();
        const histories = async () =>
          [...(await here.log.streams(STAMP_STREAMS)).values()].map(({ entries }) =>
            effective(entries).map(({ seq }) => seq),
          );
        const claims = Array.from({ length: 5 }, (_, n) => `stamp-label:S${n}`);
        const before = await histories();
        const held = [...(await here.log.holders(claims)).keys()];
        const undo = here.order('entry.strike', { seqs: [(pick % count) + 1], withResting: true });
        expect(await here.record(undo)).toMatchObject({ outcome: 'recorded' });
        for (const [stream, { entries }] of await here.log.streams(STAMP_STREAMS)) {
          const history = new History(here.registry, stream, entries);
          expect(history.standing().size).toBe(effective(entries).length);
        }
        expect(await here.ask('entry.strike', { command: undo.id })).toMatchObject({ outcome: 'recorded' });
        expect(await histories()).toEqual(before);
        expect([...(await here.log.holders(claims)).keys()]).toEqual(held);
      } finally {
        await here.end();
      }
    }),
    { seed: 7, numRuns: 50 },
  );
});
