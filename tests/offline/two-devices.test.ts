/** Two devices that did not know of each other, at one studio. */
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { Lot } from '../../server/contract/studio/state.ts';
import { stateOf } from '../../server/host/fold.ts';
import type { Order, Outcome } from '../../server/host/host.ts';
import { type StudioHost, studioHost } from '../support/studio-host.ts';
import { begin, drawn, fired, glazeFiredTiles, JUG, pounds, TILES } from '../support/yard.ts';

let studio: StudioHost;
let seen: number;
let orders = 0;
beforeEach(async () => {
  studio = await studioHost();
  await studio.tell(
    ...glazeFiredTiles,
    begin(JUG, 1, '2026-03-01'),
    ...drawn('B2', 'bisque', [JUG], '2026-03-02'),
    ...fired('G2', 'glaze', [JUG], '2026-03-04'),
  );
  seen = (await studio.host.log.head()).count;
});
afterEach(() => studio.close());

/** Noted on a device that had last looked when the kilns were still to be drawn. */
function from(device: string, command: string, input: unknown, at = '2026-03-05T10:00:00+00:00') {
  orders += 1;
  const id = `01990000-0000-7000-8000-${String(orders).padStart(12, '0')}`;
  const order: Order = { id, command, input, clock: at, who: 'ansa', device, seen };
  return studio.host.record(order);
}
const phone = (command: string, input: unknown, at?: string) => from('phone', command, input, at);
const tablet = (command: string, input: unknown, at?: string) => from('tablet', command, input, at);

const lot = async (piece: string): Promise<Lot> => {
  const stream = `piece:${piece}`;
  const { entries } = (await studio.host.log.streams([stream])).get(stream)!;
  return stateOf(stream, entries, studio.host.registry) as Lot;
};
const refusal = (outcome: Outcome) => {
  if (outcome.outcome !== 'refused') throw new Error(`it was ${outcome.outcome}`);
  return outcome.refusal;
};

describe('where they agree', () => {
  test('the same fault found twice is kept twice, and it is said', async () => {
    await phone('fault.find', { piece: JUG, kind: 'pinholes', zone: 'inside', firing: 'G2' });
    const again = await tablet('fault.find', { piece: JUG, kind: 'pinholes', zone: 'inside', firing: 'G2' });
    expect(again).toMatchObject({ outcome: 'recorded', alike: [seen + 1] });
    expect((await lot(JUG)).portions[0]!.faults).toHaveLength(2);
  });

  test('another fault of the same piece has nothing to do with the first', async () => {
    await phone('fault.find', { piece: JUG, kind: 'pinholes', zone: 'inside', firing: 'G2' });
    const other = await tablet('fault.find', { piece: JUG, kind: 'runs', zone: 'foot', firing: 'G2' });
    expect(other).not.toHaveProperty('alike');
    expect(other.outcome).toBe('recorded');
  });

  test('the same grade is kept twice', async () => {
    await phone('piece.grade', { piece: JUG, first: 1, firing: 'G2' });
    const again = await tablet(
      'piece.grade',
      { piece: JUG, first: 1, firing: 'G2' },
      '2026-03-05T10:20:00+00:00',
    );
    expect(again).toMatchObject({ outcome: 'recorded', alike: [seen + 1] });
    expect((await lot(JUG)).portions[0]!.gradings.map((it) => it.grade)).toEqual(['first', 'first']);
  });

  test('a lot graded by the same counts is so already: it cannot be split twice', async () => {
    const counts = { piece: TILES, first: 9, second: 3, firing: 'G1' };
    await phone('piece.grade', counts);
    const again = await tablet('piece.grade', counts);
    expect(again).toMatchObject({ outcome: 'unchanged', alike: [seen + 1, seen + 2, seen + 3] });
    expect((await lot(TILES)).portions.map((p) => [p.count, p.gradings.at(-1)!.grade])).toEqual([
      [9, 'first'],
      [3, 'second'],
    ]);
  });

  test('a lot looked over alike is so already', async () => {
    const seenOnIt = {
      piece: TILES,
      firing: 'G1',
      parts: [
        { count: 10, grade: 'first' },
        { count: 2, grade: 'second', faults: [{ kind: 'runs', zone: 'foot' }] },
      ],
    };
    await phone('piece.look-over', seenOnIt);
    expect((await tablet('piece.look-over', seenOnIt)).outcome).toBe('unchanged');
    const otherwise = { ...seenOnIt, parts: [{ count: 12, grade: 'first' }] };
    expect(refusal(await tablet('piece.look-over', otherwise)).meanwhile).toHaveLength(4);
  });

  test('a kiln noted as drawn twice was drawn once', async () => {
    await phone('firing.draw', { firing: 'G2' });
    expect(await tablet('firing.draw', { firing: 'G2' })).toMatchObject({ outcome: 'unchanged' });
  });
});

describe('where both cannot be true, the later one is put to the user with both sides', () => {
  test('a first here, a second there', async () => {
    await phone('piece.grade', { piece: JUG, first: 1, firing: 'G2' });
    const later = refusal(await tablet('piece.grade', { piece: JUG, second: 1, firing: 'G2' }));
    expect(later.code).toBe('said-otherwise');
    expect(later.sentence).toMatch(/another device.*piece graded on 5 March 2026.*choose/);
    expect(later.meanwhile).toMatchObject([{ name: 'piece.graded', device: 'phone', data: { first: 1 } }]);
    expect((await lot(JUG)).portions[0]!.gradings).toHaveLength(1);
  });

  test('a lot graded by other counts shows the counts of both', async () => {
    await phone('piece.grade', { piece: TILES, first: 9, second: 3, firing: 'G1' });
    const later = refusal(await tablet('piece.grade', { piece: TILES, first: 12, firing: 'G1' }));
    expect(later.sentence).toMatch(/only 9/);
    expect(later.meanwhile!.map(({ name }) => name)).toEqual(['lot.split', 'piece.graded', 'piece.graded']);
  });

  test.each([
    ['piece.price', { piece: JUG, price: pounds(2000) }, { piece: JUG, price: pounds(2500) }],
    ['piece.recount', { piece: TILES, count: 11 }, { piece: TILES, count: 10 }],
    [
      'repair.decide',
      { piece: JUG, method: 'grind', fault: 'runs' },
      { piece: JUG, method: 'refire', fault: 'runs' },
    ],
  ])('%s', async (command, here, there) => {
    await phone(command, here);
    expect(refusal(await tablet(command, there)).code).toBe('said-otherwise');
    expect((await tablet(command, here)).outcome).not.toBe('refused');
  });

  test('a fault seen on a lot that was graded by mixed counts meanwhile: which part has it, nobody said', async () => {
    await phone(
      'piece.grade',
      { piece: TILES, first: 9, second: 3, firing: 'G1' },
      '2026-03-05T11:00:00+00:00',
    );
    const fault = { piece: TILES, kind: 'runs', zone: 'foot', count: 3, firing: 'G1' };
    const later = refusal(await tablet('fault.find', fault));
    expect(later.code).toBe('said-otherwise');
    expect(later.meanwhile!.map(({ name }) => name)).toEqual(['lot.split', 'piece.graded', 'piece.graded']);
    expect((await lot(TILES)).portions.flatMap(({ faults }) => faults)).toEqual([]);

    // Said of the seconds, it is on them and nowhere else.
    const { into } = later.meanwhile![0]!.data as { into: readonly { piece: string }[] };
    const seconds = into[0]!.piece;
    seen = (await studio.host.log.head()).count;
    const said = await tablet('fault.find', { ...fault, piece: seconds }, '2026-03-05T12:00:00+00:00');
    expect(said.outcome).toBe('recorded');
    expect((await lot(TILES)).portions.map((p) => [p.count, p.faults.map(({ kind }) => kind)])).toEqual([
      [9, []],
      [3, ['runs']],
    ]);
  });

  test('a fault seen on a lot that was looked over meanwhile stays with the rest: its parts have theirs', async () => {
    await phone('piece.look-over', {
      piece: TILES,
      firing: 'G1',
      parts: [
        { count: 9, grade: 'first' },
        { count: 3, grade: 'second', faults: [{ kind: 'crazing' }] },
      ],
    });
    expect((await tablet('fault.find', { piece: TILES, kind: 'runs', count: 1 })).outcome).toBe('recorded');
  });

  test('a piece that another device sold cannot be graded, and the sale is shown', async () => {
    await phone('piece.leave', { piece: JUG, how: 'sold' }, '2026-03-05T09:00:00+00:00');
    const later = refusal(await tablet('piece.grade', { piece: JUG, first: 1, firing: 'G2' }));
    expect(later.sentence).toMatch(/has left/);
    expect(later.meanwhile).toMatchObject([{ name: 'piece.left', device: 'phone' }]);
  });

  test('what a device did itself, or knew of, is never held against it', async () => {
    await phone('piece.grade', { piece: JUG, first: 1, firing: 'G2' });
    expect((await phone('piece.grade', { piece: JUG, second: 1, firing: 'G2' })).outcome).toBe('recorded');
    seen = (await studio.host.log.head()).count;
    expect((await tablet('piece.grade', { piece: JUG, first: 1, firing: 'G2' })).outcome).toBe('recorded');
  });

  test('what was struck out in the meantime counts for nothing', async () => {
    await phone('piece.grade', { piece: JUG, first: 1, firing: 'G2' });
    await phone('entry.strike', { seqs: [seen + 1] });
    expect((await tablet('piece.grade', { piece: JUG, second: 1, firing: 'G2' })).outcome).toBe('recorded');
  });
});

describe('a device’s own clock', () => {
  const noted = async (order: Partial<Order>) => {
    const id = '01990000-0000-7000-8000-00000000ffff';
    await studio.host.record({
      ...{ id, command: 'fault.find', input: { piece: JUG, kind: 'runs' }, who: 'ansa', device: 'phone' },
      ...order,
    });
    return (await studio.host.log.read(seen, 1))[0]!;
  };

  test('says when it happened, and is kept with its offset', async () => {
    const entry = await noted({
      clock: '2026-06-29T21:15:30.123+02:00',
      sent: '2026-06-30T14:00:10.000+02:00',
    });
    expect(entry.happenedAt).toBe('2026-06-29T20:15:30+01:00');
    expect(entry.clock).toBe('2026-06-29T21:15:30.123+02:00');
  });

  test('is set right where it is three hours fast', async () => {
    const entry = await noted({
      clock: '2026-06-30T15:30:00.000+01:00',
      sent: '2026-06-30T16:00:00.000+01:00',
    });
    expect(entry.happenedAt).toBe('2026-06-30T12:30:00+01:00');
    expect(entry.clock).toBe('2026-06-30T15:30:00.000+01:00');
  });

  test('never puts anything into the future', async () => {
    const entry = await noted({
      clock: '2026-06-30T13:01:00.000+01:00',
      sent: '2026-06-30T13:01:00.000+01:00',
    });
    expect(entry.happenedAt).toBe('2026-06-30T13:00:00+01:00');
  });

  test('gives way to a day that the potter named', async () => {
    const entry = await noted({ clock: '2026-06-30T10:00:00.000+01:00', happenedAt: '2026-03-06' });
    expect(entry.happenedAt).toBe('2026-03-06');
  });
});
