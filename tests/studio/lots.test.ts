import { describe, expect, test } from 'vitest';
import type { Lot } from '../../server/contract/studio/state.ts';
import { portionIn } from '../../server/contract/studio/values.ts';
import { done } from '../support/given.ts';
import { begin, drawn, given, glaze, JUG, materials, OWN, packed, TILES } from '../support/yard.ts';

const counts = (lot: Lot): number[] => lot.portions.map((portion) => portion.count);

describe('a lot', () => {
  test('is begun with its count, clay and foot mark', () => {
    given(...materials)
      .when('piece.begin', { piece: TILES, count: 12, mark: 'K7RTX', form: 'tile', clay: 'fell-white' })
      .then([
        'piece.begun',
        { piece: TILES, count: 12, mark: 'K7RTX', form: 'tile', clay: 'fell-white', owner: OWN },
      ]);
  });

  test('is given a foot mark of four symbols and a check when none was scratched', () => {
    const [begun] = given(...materials)
      .when('piece.begin', { piece: TILES, count: 1 })
      .recorded();
    expect((begun!.data as { mark: string }).mark).toMatch(/^[ACDEFHJKMNPQRTVWXY34679]{5}$/);
    expect(begun!.claims).toEqual([`mark:${(begun!.data as { mark: string }).mark}`]);
  });

  test('cannot be of a clay that is not in the studio', () => {
    given(...materials)
      .when('piece.begin', { piece: TILES, count: 1, clay: 'moon-dust' })
      .refused('not-in-the-studio', /no clay called “moon-dust”/);
  });

  test('cannot be begun twice', () => {
    given(...materials, begin(TILES, 12))
      .when('piece.begin', { piece: TILES, count: 3, mark: 'other' })
      .refused('not-possible-then', /begun already/);
  });

  test('keeps its number of pieces when it is split', () => {
    const lot = given(...materials, begin(TILES, 12))
      .when('lot.split', { piece: TILES, into: [{ count: 3 }, { count: 2, mark: 'LID' }] })
      .state<Lot>(`piece:${TILES}`);
    expect(counts(lot)).toEqual([7, 3, 2]);
    expect(lot.portions.map((p) => p.mark)).toEqual(['aa', 'aa', 'LID']);
  });

  test('cannot be split into more than it has', () => {
    given(...materials, begin(TILES, 12))
      .when('lot.split', { piece: TILES, into: [{ count: 12 }] })
      .refused('not-possible-then', /at most 11 can be split off, not 12/);
  });

  test('splits in the same append when only some of it moves on', () => {
    const recorded = given(...materials, begin(TILES, 12))
      .when('piece.move-on', { piece: TILES, stage: 'bone-dry', count: 4 })
      .recorded();
    expect(recorded.map((entry) => entry.name)).toEqual(['lot.split', 'piece.moved-on']);
    expect((recorded[1]!.data as { count: number }).count).toBe(4);
  });

  test('that is bone-dry already moves on to nothing new', () => {
    given(
      ...materials,
      begin(TILES, 12),
      done('2026-02-03', 'piece.move-on', { piece: TILES, stage: 'bone-dry' }),
    )
      .when('piece.move-on', { piece: TILES, stage: 'bone-dry' })
      .unchanged();
  });

  test('takes along what was done to it before the split, also when that is noted late', () => {
    const lot = given(
      ...materials,
      begin(TILES, 12),
      ...drawn('B1', 'bisque', [TILES], '2026-02-10'),
      done('2026-02-20', 'lot.split', { piece: TILES, into: [{ count: 5 }] }),
    )
      .when('glaze.apply', { piece: TILES, layers: [{ glaze: 'marram-green', coats: 1 }] }, '2026-02-12')
      .state<Lot>(`piece:${TILES}`);
    expect(lot.portions.map((p) => [p.count, p.stage, p.glazings.length])).toEqual([
      [7, 'glazed', 1],
      [5, 'glazed', 1],
    ]);
  });

  test('is corrected where it was miscounted', () => {
    given(...materials, begin(TILES, 12))
      .when('piece.recount', { piece: TILES, count: 11 })
      .then(['piece.recounted', { piece: TILES, count: 11 }]);
  });
});

describe('a piece that has left', () => {
  const gone = [
    ...materials,
    begin(JUG, 1),
    ...drawn('B1', 'bisque', [JUG], '2026-02-10'),
    done('2026-03-01', 'piece.leave', { piece: JUG, how: 'sold' }),
  ];

  test('cannot be graded until its return is noted', () => {
    given(...gone)
      .when('piece.grade', { piece: JUG, first: 1 })
      .refused('not-possible-then', /it has left; note its return first/i);
  });

  test('comes back to the stage that it left from', () => {
    const lot = given(...gone)
      .when('piece.return', { piece: JUG, from: 'post' })
      .state<Lot>(`piece:${JUG}`);
    expect(portionIn(lot, JUG)!.stage).toBe('bisque-fired');
  });

  test('was never sold as raw clay', () => {
    given(...materials, begin(JUG, 1))
      .when('piece.leave', { piece: JUG, how: 'sold' })
      .refused('not-possible-then', /hasn't been fired/);
  });

  test('does not come back when it was broken up', () => {
    given(...materials, begin(JUG, 1), done('2026-02-05', 'piece.leave', { piece: JUG, how: 'broken-up' }))
      .when('piece.return', { piece: JUG, from: 'owner' })
      .refused('not-possible-then', /broken up/);
  });
});

describe('a glaze', () => {
  const bisque = [...materials, begin(JUG, 1), ...drawn('B1', 'bisque', [JUG], '2026-02-10')];

  test('goes on by zone and layer', () => {
    const layers = [
      { glaze: 'marram-green', coats: 1, method: 'dipped' },
      { glaze: 'cuttle-white', coats: 2, method: 'brushed' },
    ];
    given(...bisque)
      .when('glaze.apply', { piece: JUG, zone: 'outside', layers, wipedBack: true })
      .then(['glaze.applied', { piece: JUG, zone: 'outside', layers, wipedBack: true }]);
  });

  test('is refused on a zone that nobody knows, with those that are known', () => {
    given(...bisque)
      .when('glaze.apply', { piece: JUG, zone: 'spout', layers: [{ glaze: 'marram-green', coats: 1 }] })
      .refused('unknown-zone', /“spout” is not a known zone. Known: inside, outside, rim/);
  });

  test('goes on a zone of the potter’s own', () => {
    given(...bisque, done('2026-02-11', 'word.add', { kind: 'zone', name: 'Spout' }))
      .when('glaze.apply', { piece: JUG, zone: 'spout', layers: [{ glaze: 'marram-green', coats: 1 }] })
      .then(['glaze.applied', { piece: JUG, zone: 'spout', layers: [{ glaze: 'marram-green', coats: 1 }] }]);
  });

  test('cannot be put on a piece that stands in a packed kiln', () => {
    given(...bisque, packed('G1', 'glaze', [JUG], '2026-02-12'))
      .when('glaze.apply', { piece: JUG, layers: [{ glaze: 'marram-green', coats: 1 }] })
      .refused('not-possible-then', /packed in G1 and not yet fired; take it out of the load first/);
  });

  test('as slip on damp clay leaves the piece at its stage', () => {
    const lot = given(...materials, begin(JUG, 1))
      .when('glaze.apply', { piece: JUG, layers: [{ glaze: 'cuttle-white', coats: 1 }] })
      .state<Lot>(`piece:${JUG}`);
    expect(portionIn(lot, JUG)!.stage).toBe('made');
  });

  test('on bone-dry ware makes it once-fired ware', () => {
    given(
      ...materials,
      begin(JUG, 1),
      done('2026-02-03', 'piece.move-on', { piece: JUG, stage: 'bone-dry' }),
      glaze(JUG, '2026-02-04'),
    )
      .when(
        'firing.pack',
        { firing: 'G9', kiln: 'big-round', role: 'glaze', places: [{ piece: JUG }] },
        '2026-02-05',
      )
      .then([
        'firing.packed',
        { firing: 'G9', kiln: 'big-round', role: 'glaze', places: [{ piece: JUG, count: 1 }] },
      ]);
  });
});
