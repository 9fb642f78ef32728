import { describe, expect, test } from 'vitest';
import type { Lot, Portion } from '../../server/contract/studio/state.ts';
import { portionIn } from '../../server/contract/studio/values.ts';
import { faultByGrade } from '../../server/studio/piece/grade.ts';
import { done } from '../support/given.ts';
import { begin, drawn, given, glaze, glazeFiredTiles, JUG, materials, TILES } from '../support/yard.ts';

const portions = (lot: Lot): readonly Portion[] => lot.portions;
const summary = (lot: Lot) =>
  portions(lot).map((p) => [
    p.count,
    p.gradings.at(-1)?.grade,
    p.faults.map((f) => `${f.kind} × ${f.count}`).join(),
  ]);

describe('drawing and grading', () => {
  test('ware that was never fired is not graded', () => {
    given(...materials, begin(JUG, 1))
      .when('piece.grade', { piece: JUG, first: 1 })
      .refused('not-possible-then', /hasn't been fired; fire it first/);
  });

  test('a lot of one grade stays whole', () => {
    given(...glazeFiredTiles)
      .when('piece.grade', { piece: TILES, first: 12 })
      .then(['piece.graded', { piece: TILES, firing: 'G1', first: 12, second: 0, waster: 0 }]);
  });

  test('nine firsts, two seconds and a waster split the lot by grade, faults going to wasters and then seconds', () => {
    const lot = given(
      ...glazeFiredTiles,
      done('2026-02-16', 'fault.find', { piece: TILES, kind: 'pinholes', zone: 'inside', count: 3 }),
    )
      .when('piece.grade', { piece: TILES, first: 9, second: 2, waster: 1 })
      .state<Lot>(`piece:${TILES}`);
    expect(summary(lot)).toEqual([
      [9, 'first', ''],
      [1, 'waster', 'pinholes × 1'],
      [2, 'second', 'pinholes × 2'],
    ]);
  });

  test('some of a lot can be graded while the rest waits', () => {
    const lot = given(...glazeFiredTiles)
      .when('piece.grade', { piece: TILES, second: 2 })
      .state<Lot>(`piece:${TILES}`);
    expect(summary(lot)).toEqual([
      [10, undefined, ''],
      [2, 'second', ''],
    ]);
    expect(portionIn(lot, TILES)!.inFiring).toBe('G1');
  });

  test('more than there are cannot be graded', () => {
    given(...glazeFiredTiles)
      .when('piece.grade', { piece: TILES, first: 13 })
      .refused('too-many', /13 are graded, but there are only 12/);
  });

  test('a fault cannot be on more pieces than there are', () => {
    given(...glazeFiredTiles)
      .when('fault.find', { piece: TILES, kind: 'runs', count: 13 })
      .refused('not-possible-then', /only 12/);
  });

  test('a fault that nobody knows is refused with those that are known', () => {
    given(...glazeFiredTiles)
      .when('fault.find', { piece: TILES, kind: 'sulks' })
      .refused('unknown-fault', /Known: pinholes, blisters/);
  });

  test('a fault is on every piece of the lot when no number is given', () => {
    given(...glazeFiredTiles)
      .when('fault.find', { piece: TILES, kind: 'runs', zone: 'foot', severity: 'bad', size: 4 })
      .then([
        'fault.found',
        { piece: TILES, kind: 'runs', zone: 'foot', severity: 'bad', size: 4, count: 12 },
      ]);
  });

  // The rule of the notebook's columns: wasters are filled first, then seconds, what is over falls on firsts.
  test.each([
    [3, 1, 2, { waster: 1, second: 2, first: 0 }],
    [5, 1, 2, { waster: 1, second: 2, first: 2 }],
    [1, 1, 2, { waster: 1, second: 0, first: 0 }],
    [2, 0, 1, { waster: 0, second: 1, first: 1 }],
  ])('of %i faulty pieces among %i wasters and %i seconds', (faulty, waster, second, shares) => {
    expect(faultByGrade(faulty, waster, second)).toEqual(shares);
  });
});

describe('mending', () => {
  const second = [
    ...materials,
    begin(JUG, 1),
    ...drawn('B1', 'bisque', [JUG], '2026-02-10'),
    glaze(JUG, '2026-02-12'),
    ...drawn('G1', 'glaze', [JUG], '2026-02-14'),
    done('2026-02-15', 'fault.find', { piece: JUG, kind: 'pinholes', zone: 'inside' }),
    done('2026-02-15', 'piece.grade', { piece: JUG, second: 1 }),
  ];

  test('a second is put aside, mended, refired and becomes a first, and the repair knows it', () => {
    const lot = given(
      ...second,
      done('2026-02-16', 'repair.decide', { piece: JUG, method: 'fill-and-reglaze', fault: 'pinholes' }),
      done('2026-02-17', 'repair.do', { piece: JUG, method: 'fill-and-reglaze' }),
      ...drawn('G2', 'glaze', [JUG], '2026-02-20'),
    )
      .when('piece.grade', { piece: JUG, first: 1 }, '2026-02-21')
      .state<Lot>(`piece:${JUG}`);
    const jug = portionIn(lot, JUG)!;
    expect(jug.gradings.map((g) => [g.grade, g.firing])).toEqual([
      ['second', 'G1'],
      ['first', 'G2'],
    ]);
    expect(jug.repairs).toMatchObject([
      { method: 'fill-and-reglaze', fault: 'pinholes', state: 'done', after: 'first' },
    ]);
  });

  test('raw ware is not mended', () => {
    given(...materials, begin(JUG, 1))
      .when('repair.do', { piece: JUG, method: 'grind' })
      .refused('not-possible-then', /only fired ware is mended/i);
  });

  test('a crazed bowl that comes back weeks later has its fault noted then', () => {
    const lot = given(
      ...second,
      done('2026-02-20', 'piece.leave', {
        piece: JUG,
        how: 'sold',
        price: { amount: 1800, currency: 'GBP' },
      }),
      done('2026-04-02', 'piece.return', { piece: JUG, from: 'owner' }),
    )
      .when('fault.find', { piece: JUG, kind: 'crazing' }, '2026-04-02')
      .state<Lot>(`piece:${JUG}`);
    expect(portionIn(lot, JUG)!.faults.map((f) => f.kind)).toEqual(['pinholes', 'crazing']);
  });

  test('a third firing for lustre keeps it glaze-fired ware', () => {
    const lot = given(...second, ...drawn('L1', 'lustre', [JUG], '2026-03-01')).state<Lot>(`piece:${JUG}`);
    expect(portionIn(lot, JUG)!.stage).toBe('glaze-fired');
    expect(portionIn(lot, JUG)!.passages.map((p) => p.role)).toEqual(['bisque', 'glaze', 'lustre']);
  });
});
