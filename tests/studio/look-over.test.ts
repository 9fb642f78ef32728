import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Lot } from '../../server/contract/studio/state.ts';
import { portionIn } from '../../server/contract/studio/values.ts';
import { waitsFor } from '../../server/studio/waits.ts';
import { done } from '../support/given.ts';
import { drawn, fired, given, glaze, glazeFiredTiles, JUG, materials, TILES } from '../support/yard.ts';

const summary = (lot: Lot) =>
  lot.portions.map((p) => [
    p.count,
    p.stage,
    p.gradings.at(-1)?.grade,
    p.faults.map((f) => `${f.kind}@${f.zone} × ${f.count}`).join(),
  ]);

describe('looking a lot over as it comes out of the kiln', () => {
  test('nine good, two seconds with pinholes and a cracked waster are one record, each fault on its own pieces', () => {
    const lot = given(...glazeFiredTiles)
      .when('piece.look-over', {
        piece: TILES,
        firing: 'G1',
        parts: [
          { count: 2, grade: 'second', faults: [{ kind: 'pinholes', zone: 'inside' }] },
          { count: 1, grade: 'waster', faults: [{ kind: 'crack', zone: 'base' }] },
          { count: 9, grade: 'first' },
        ],
      })
      .state<Lot>(`piece:${TILES}`);
    expect(summary(lot)).toEqual([
      [9, 'graded', 'first', ''],
      [2, 'graded', 'second', 'pinholes@inside × 2'],
      [1, 'graded', 'waster', 'crack@base × 1'],
    ]);
    expect(portionIn(lot, TILES)).toMatchObject({ count: 9, gradings: [{ firing: 'G1' }] });
  });

  test('a second that is to be mended is graded first and then waits to be mended, for the fault that was seen', () => {
    const lot = given(...glazeFiredTiles)
      .when(
        'piece.look-over',
        {
          piece: TILES,
          parts: [{ count: 12, grade: 'second', faults: [{ kind: 'runs', zone: 'foot' }], repair: 'grind' }],
        },
        '2026-02-16',
      )
      .state<Lot>(`piece:${TILES}`);
    expect(lot.portions[0]).toMatchObject({
      stage: 'mending',
      gradings: [{ grade: 'second', firing: 'G1' }],
      repairs: [{ method: 'grind', fault: 'runs', state: 'decided' }],
    });
  });

  test('bisque ware with a fault stays ungraded, and can go on to be glazed', () => {
    const bisque = [...materials, done('2026-02-01', 'piece.begin', { piece: TILES, count: 12, mark: 'A' })];
    given(...bisque, ...fired('B1', 'bisque', [TILES], '2026-02-10'))
      .when('piece.look-over', { piece: TILES, parts: [{ count: 12, faults: [{ kind: 'specks' }] }] })
      .then(['fault.found', { piece: TILES, firing: 'B1', kind: 'specks', count: 12 }]);
  });

  test('more than there are, a word that nobody knows, or nothing at all is refused with what is wrong', () => {
    const drawing = given(...glazeFiredTiles);
    const look = (parts: object[]) => drawing.when('piece.look-over', { piece: TILES, parts });
    look([{ count: 13, grade: 'first' }]).refused('too-many', /13 are looked over, but there are only 12/);
    look([{ count: 1, faults: [{ kind: 'sulks' }] }]).refused('unknown-fault', /Known: pinholes/);
    look([{ count: 1, repair: 'hope', grade: 'second' }]).refused('unknown-repair', /Known: grind/);
    look([{ count: 1 }]).refused('nothing-seen', /Say what is seen/);
  });

  test('however a lot is parted, no piece is lost and none is made', () => {
    const part = fc.record({
      count: fc.integer({ min: 1, max: 6 }),
      grade: fc.constantFrom('first', 'second', 'waster'),
    });
    fc.assert(
      fc.property(fc.array(part, { minLength: 1, maxLength: 6 }), (parts) => {
        const said = parts.reduce((sum, { count }) => sum + count, 0);
        fc.pre(said <= 12);
        const lot = given(...glazeFiredTiles)
          .when('piece.look-over', { piece: TILES, parts })
          .state<Lot>(`piece:${TILES}`);
        const graded = lot.portions.filter((p) => p.gradings.length > 0);
        expect(lot.portions.reduce((sum, p) => sum + p.count, 0)).toBe(12);
        expect(graded.map((p) => `${p.count} ${p.gradings[0]!.grade}`).sort()).toEqual(
          parts.map((p) => `${p.count} ${p.grade}`).sort(),
        );
      }),
      { numRuns: 40 },
    );
  });
});

describe('what ware waits for', () => {
  const commission = { kind: 'commission', person: 'iris' };
  const jug = (owner: object, more: readonly (readonly [string, object])[] = []) =>
    given(
      ...materials,
      done('2026-01-02', 'person.add', { person: 'iris', name: 'Iris Quillfeather' }),
      done('2026-02-01', 'piece.begin', { piece: JUG, form: 'jug', owner }),
      ...drawn('B1', 'bisque', [JUG], '2026-02-10'),
      glaze(JUG, '2026-02-12'),
      ...drawn('G1', 'glaze', [JUG], '2026-02-14'),
      // A day each: within a day, what is graded stands after what is mended.
      ...more.map(([command, input], n) => done(`2026-02-${16 + n}`, command, { piece: JUG, ...input })),
    ).state<Lot>(`piece:${JUG}`);
  const waits = (lot: Lot) => lot.portions.flatMap(waitsFor).map(({ does }) => does);

  test('drawn and not looked over, it waits to be graded', () => {
    expect(waits(jug({ kind: 'own' }))).toEqual(['grade']);
  });

  test('a flawed piece waits for a decision until a repair is decided, or that there is none', () => {
    expect(waits(jug({ kind: 'own' }, [['piece.grade', { second: 1 }]]))).toEqual(['decide']);
    const mended = [
      ['piece.grade', { second: 1 }],
      ['repair.decide', { method: 'grind' }],
    ] as const;
    expect(waits(jug({ kind: 'own' }, mended))).toEqual(['mend']);
    expect(waits(jug({ kind: 'own' }, [...mended, ['repair.decline', {}]]))).toEqual([]);
  });

  test('a good commission waits for its client to be told, a flawed one for the client to be asked', () => {
    expect(waits(jug(commission, [['piece.grade', { first: 1 }]]))).toEqual(['tell']);
    const flawed = [['piece.grade', { second: 1 }]] as const;
    expect(waits(jug(commission, flawed))).toEqual(['decide', 'ask']);
    expect(waits(jug(commission, [...flawed, ['piece.tell-owner', {}]]))).toEqual(['decide']);
    expect(waits(jug(commission, [...flawed, ['piece.leave', { how: 'collected' }]]))).toEqual([]);
  });

  test('graded anew after mending, its owner is told anew', () => {
    const again = [
      ['piece.grade', { second: 1 }],
      ['piece.tell-owner', {}],
      ['repair.do', { method: 'grind' }],
      ['piece.grade', { first: 1 }],
    ] as const;
    expect(waits(jug({ kind: 'student', person: 'iris' }, again))).toEqual(['tell']);
  });

  test('nobody can be told of own stock', () => {
    given(...glazeFiredTiles)
      .when('piece.tell-owner', { piece: TILES })
      .refused('not-possible-then', /own stock/);
  });
});
