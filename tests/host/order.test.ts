import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Entry } from '../../server/contract/entry.ts';
import {
  byCommand,
  type End,
  effective,
  endAfter,
  inOrder,
  standsLast,
  struck,
} from '../../server/host/order.ts';

/** The rank is the entry's data here, so that every order can be tried. */
const ranks = { rank: (entry: Entry) => (entry.data as { rank?: number }).rank };

function entry(seq: number, happenedAt: string, rank: number, more: Partial<Entry> = {}): Entry {
  return {
    seq,
    command: `c${seq}`,
    part: 0,
    name: 'stamp.noted',
    version: 1,
    happenedAt,
    recordedAt: '2026-06-30T12:00:00.000Z',
    who: 'ansa',
    device: 'bench',
    streams: ['stamp:fern'],
    data: { rank },
    ...more,
  };
}

const strike = (seq: number, of: number): Entry =>
  entry(seq, '2026-06-30', 100, { name: 'entry.struck', data: { seq: of } });
const order = (...entries: Entry[]) => inOrder(entries, ranks).map(({ seq }) => seq);

describe('the order in which things happened', () => {
  test('is by day, whenever they were noted', () => {
    expect(order(entry(1, '2026-05-03', 0), entry(2, '2026-05-01', 50), entry(3, '2026-05-02', 0))).toEqual([
      2, 3, 1,
    ]);
  });

  test('is by the clock within a day', () => {
    expect(
      order(entry(1, '2026-05-01T15:00:00+01:00', 0), entry(2, '2026-05-01T09:00:00+01:00', 50)),
    ).toEqual([2, 1]);
  });

  test('is by the trade’s own order where only the day is known, and then by when it was noted', () => {
    expect(order(entry(1, '2026-05-01', 80), entry(2, '2026-05-01', 40), entry(3, '2026-05-01', 40))).toEqual(
      [2, 3, 1],
    );
  });

  test('puts what has only a day after the last timed thing that comes no later in the trade’s order', () => {
    const packed = entry(1, '2026-05-01T08:00:00+01:00', 30);
    const lit = entry(2, '2026-05-01T09:00:00+01:00', 31);
    expect(order(packed, lit, entry(3, '2026-05-01', 0))).toEqual([3, 1, 2]);
    expect(order(packed, lit, entry(3, '2026-05-01', 30))).toEqual([1, 3, 2]);
    expect(order(packed, lit, entry(3, '2026-05-01', 80))).toEqual([1, 2, 3]);
  });

  test('keeps what one command recorded together, at the rank of its last part', () => {
    const split = { command: 'one', streams: ['stamp:fern'] };
    const unit = [
      entry(2, '2026-05-01', 5, { ...split, part: 0 }),
      entry(3, '2026-05-01', 80, { ...split, part: 1 }),
    ];
    expect(order(entry(1, '2026-05-01', 90), ...unit, entry(4, '2026-05-01', 40))).toEqual([4, 2, 3, 1]);
  });

  test('goes by the instant in the hour that comes twice in autumn', () => {
    const firstHalfPastOne = entry(2, '2026-10-25T01:30:00+01:00', 0);
    const secondQuarterPastOne = entry(1, '2026-10-25T01:15:00+00:00', 0);
    expect(order(secondQuarterPastOne, firstHalfPastOne)).toEqual([2, 1]);
  });

  test('takes the local day of a moment, though it is another day in Greenwich', () => {
    expect(
      order(
        entry(1, '2026-05-02', 0),
        entry(2, '2026-05-02T00:30:00+13:00', 0),
        entry(3, '2026-05-01T23:30:00-10:00', 0),
      ),
    ).toEqual([3, 2, 1]);
  });

  test('puts what a missing plugin recorded at the end of its day', () => {
    expect(order(entry(1, '2026-05-01', 0, { data: {} }), entry(2, '2026-05-01', 95))).toEqual([2, 1]);
  });
});

describe('an entry with only a day', () => {
  test('stands before a moment that came after it was written down, whatever its rank', () => {
    const graded = entry(1, '2026-05-01', 80, { recordedAt: '2026-05-01T10:00:00.000Z' });
    const reglazed = entry(2, '2026-05-01T17:00:00+01:00', 40, { recordedAt: '2026-05-01T16:00:00.000Z' });
    expect(order(graded, reglazed)).toEqual([1, 2]);
  });
});

describe('what is struck out', () => {
  test('does not count, nor does the strike', () => {
    const entries = [entry(1, '2026-05-01', 0), entry(2, '2026-05-01', 0), strike(3, 1)];
    expect(struck(entries)).toEqual(new Map([[1, 3]]));
    expect(effective(entries).map(({ seq }) => seq)).toEqual([2]);
  });

  test('comes back when its strike is struck, and goes again when that strike is', () => {
    const entries = [entry(1, '2026-05-01', 0), strike(2, 1), strike(3, 2)];
    expect(struck(entries)).toEqual(new Map([[2, 3]]));
    expect(struck([...entries, strike(4, 3)])).toEqual(
      new Map([
        [3, 4],
        [1, 2],
      ]),
    );
  });
});

const when = fc.oneof(
  fc.constantFrom('2026-10-24', '2026-10-25', '2026-10-26'),
  fc
    .tuple(
      fc.constantFrom('2026-10-24', '2026-10-25', '2026-10-26'),
      fc.integer({ min: 0, max: 23 }),
      fc.constantFrom('+00:00', '+01:00'),
    )
    .map(([day, hour, offset]) => `${day}T${String(hour).padStart(2, '0')}:30:00${offset}`),
);

const recorded = fc.constantFrom(
  '2026-10-24T09:00:00.000Z',
  '2026-10-25T15:00:00.000Z',
  '2026-11-01T12:00:00.000Z',
);

/** Commands of one to three entries each, all at one time. */
const commands = fc
  .array(
    fc.record({
      when,
      recorded,
      ranks: fc.array(fc.integer({ min: 0, max: 5 }), { minLength: 1, maxLength: 3 }),
    }),
    { maxLength: 12 },
  )
  .map((list) => {
    let seq = 0;
    return list.map(({ when, recorded, ranks }, n) =>
      ranks.map((rank, part) => entry(++seq, when, rank, { command: `c${n}`, part, recordedAt: recorded })),
    );
  });

/** Whether the day has both entries with a moment and entries without. */
const mixed = (entries: readonly Entry[], happenedAt: string): boolean => {
  const ofDay = entries.filter((it) => it.happenedAt.startsWith(happenedAt.slice(0, 10)));
  return new Set(ofDay.map((it) => it.happenedAt.length > 10)).size > 1;
};

describe('for any entries', () => {
  test('the order does not depend on how they arrive', () => {
    const shuffled = commands.chain((units) =>
      fc.tuple(
        fc.constant(units.flat()),
        fc.shuffledSubarray(units.flat(), { minLength: units.flat().length }),
      ),
    );
    fc.assert(
      fc.property(shuffled, ([entries, mixed]) => {
        expect(order(...mixed)).toEqual(order(...entries));
      }),
      { seed: 1, numRuns: 500 },
    );
  });

  test('each has its place once', () => {
    fc.assert(
      fc.property(commands, (units) => {
        expect(order(...units.flat()).toSorted((a, b) => a - b)).toEqual(units.flat().map(({ seq }) => seq));
      }),
      { seed: 2 },
    );
  });

  test('what is said to stand last stands last, and moves nothing; and nothing else does on a day of moments only or days only', () => {
    fc.assert(
      fc.property(commands, (units) => {
        let before: Entry[] = [];
        for (const unit of units) {
          let end: End | undefined;
          for (const one of byCommand(inOrder(before, ranks)).values()) end = endAfter(end, one, ranks);
          const after = inOrder([...before, ...unit], ranks);
          const appended = [...inOrder(before, ranks), ...unit].map(({ seq }) => seq);
          const last = after.every(({ seq }, index) => seq === appended[index]);
          const said = standsLast(end, unit, ranks);
          if (said || !mixed([...before, ...unit], unit[0]!.happenedAt)) expect(said).toBe(last);
          before = [...before, ...unit];
        }
      }),
      { seed: 3, numRuns: 500 },
    );
  });

  test('striking and striking the strike leaves everything as it was', () => {
    fc.assert(
      fc.property(commands, fc.array(fc.nat(), { maxLength: 5 }), fc.nat(), (units, strikes, chosen) => {
        const entries = units.flat();
        for (const pick of strikes)
          if (entries.length > 0) entries.push(strike(entries.length + 1, (pick % entries.length) + 1));
        const target = (chosen % Math.max(entries.length, 1)) + 1;
        const there = struck(entries).has(target);
        const once = [...entries, strike(entries.length + 1, target)];
        const twice = [...once, strike(entries.length + 2, entries.length + 1)];
        expect(effective(twice)).toEqual(effective(entries));
        if (entries.length > 0 && !there) expect(struck(once).has(target)).toBe(true);
      }),
      { seed: 4, numRuns: 500 },
    );
  });
});
