import { describe, expect, test } from 'vitest';
import type { Firing, Lot } from '../../server/contract/studio/state.ts';
import { portionIn } from '../../server/contract/studio/values.ts';
import { done } from '../support/given.ts';
import {
  begin,
  drawn,
  fired,
  given,
  glaze,
  glazeFiredTiles,
  JUG,
  materials,
  packed,
  TILES,
} from '../support/yard.ts';

const pack = { firing: 'G1', label: 'G1', kiln: 'big-round', role: 'glaze' };

describe('packing a kiln', () => {
  test('records shelf, place and what stands underneath', () => {
    given(
      ...materials,
      begin(JUG, 1),
      ...drawn('B1', 'bisque', [JUG], '2026-02-10'),
      glaze(JUG, '2026-02-11'),
    )
      .when('firing.pack', {
        ...pack,
        schedule: 'glaze-6-plain',
        places: [{ piece: JUG, shelf: 2, position: 'back left', furniture: ['catcher', 'wash'] }],
      })
      .then([
        'firing.packed',
        {
          ...pack,
          schedule: 'glaze-6-plain',
          places: [{ piece: JUG, count: 1, shelf: 2, position: 'back left', furniture: ['catcher', 'wash'] }],
        },
      ]);
  });

  test('of wet ware for a glaze firing is refused, with what would be legal', () => {
    given(...materials, begin(JUG, 1))
      .when('firing.pack', { ...pack, places: [{ piece: JUG }] })
      .refused('not-possible-then', /still raw clay and would burst or blister; bisque fire it/);
  });

  test('of ware whose bisque was not noted goes through when the potter says so', () => {
    given(...materials, begin(JUG, 1))
      .when('firing.pack', { ...pack, places: [{ piece: JUG }], stagesNotNoted: true })
      .then(['firing.packed', { ...pack, places: [{ piece: JUG, count: 1 }], stagesNotNoted: true }]);
  });

  test('of five of twelve splits the lot in the same append', () => {
    const recorded = given(...materials, begin(TILES, 12))
      .when('firing.pack', { ...pack, role: 'bisque', places: [{ piece: TILES, count: 5 }] })
      .recorded();
    expect(recorded.map((entry) => entry.name)).toEqual(['lot.split', 'firing.packed']);
    expect(recorded[1]!.streams).toEqual(['firing:G1', `piece:${TILES}`]);
  });

  test('a piece that is packed elsewhere is refused', () => {
    given(...materials, begin(JUG, 1), packed('B1', 'bisque', [JUG], '2026-02-05'))
      .when('firing.pack', { firing: 'B2', kiln: 'big-round', role: 'bisque', places: [{ piece: JUG }] })
      .refused('not-possible-then', /packed in B1/);
  });

  test('in a kiln that is not in the studio is refused', () => {
    given(...materials, begin(JUG, 1))
      .when('firing.pack', { ...pack, kiln: 'moon-kiln', places: [{ piece: JUG }] })
      .refused('not-in-the-studio', /no kiln called “moon-kiln”/);
  });

  test('a piece forgotten until after the drawing went through the firing', () => {
    const lot = given(
      ...materials,
      begin(TILES, 12),
      begin(JUG, 1),
      ...drawn('B1', 'bisque', [TILES], '2026-02-10'),
    )
      .when(
        'firing.pack',
        { firing: 'B1', kiln: 'big-round', role: 'bisque', places: [{ piece: JUG }], afterwards: 'drawn' },
        '2026-02-10',
      )
      .state<Lot>(`piece:${JUG}`);
    expect(portionIn(lot, JUG)).toMatchObject({ stage: 'bisque-fired' });
    expect(portionIn(lot, JUG)!.inFiring).toBeUndefined();
  });
});

describe('a firing', () => {
  test('that was never lit cannot be drawn', () => {
    given(...materials, begin(JUG, 1), packed('B1', 'bisque', [JUG], '2026-02-05'))
      .when('firing.draw', { firing: 'B1' })
      .refused('not-possible-then', /never lit. Light it first, or unpack it/);
  });

  test('that has not ended cannot be drawn', () => {
    given(
      ...materials,
      begin(JUG, 1),
      packed('B1', 'bisque', [JUG], '2026-02-05'),
      done('2026-02-05', 'firing.light', { firing: 'B1' }),
    )
      .when('firing.draw', { firing: 'B1' })
      .refused('not-possible-then', /has not ended.*kiln maker's handbook/);
  });

  test('is recorded in the story of every piece that is in it', () => {
    const [lit] = given(
      ...materials,
      begin(TILES, 12),
      begin(JUG, 1),
      packed('B1', 'bisque', [TILES, JUG], '2026-02-05'),
    )
      .when('firing.light', { firing: 'B1' })
      .recorded();
    expect(lit!.streams).toEqual(['firing:B1', `piece:${TILES}`, `piece:${JUG}`]);
  });

  test('makes bisque ware of raw ware, and gives it back when drawn', () => {
    const before = given(...materials, begin(JUG, 1), ...fired('B1', 'bisque', [JUG], '2026-02-05'));
    expect(portionIn(before.state<Lot>(`piece:${JUG}`), JUG)).toMatchObject({
      stage: 'bisque-fired',
      inFiring: 'B1',
    });
    const after = before.when('firing.draw', { firing: 'B1' }).state<Lot>(`piece:${JUG}`);
    expect(portionIn(after, JUG)!.inFiring).toBeUndefined();
  });

  test('that is given up leaves the ware as it was', () => {
    const lot = given(...materials, begin(JUG, 1), packed('B1', 'bisque', [JUG], '2026-02-05'))
      .when('firing.abandon', { firing: 'B1' })
      .state<Lot>(`piece:${JUG}`);
    expect(portionIn(lot, JUG)).toMatchObject({ stage: 'made' });
    expect(portionIn(lot, JUG)!.inFiring).toBeUndefined();
  });

  test('keeps the witness cones of each shelf', () => {
    const cones = [
      { shelf: 1, cone: '6', bend: 'down' },
      { shelf: 3, cone: '6', bend: 'leaning' },
    ];
    const firing = given(...glazeFiredTiles)
      .when('firing.draw', { firing: 'G1', cones })
      .state<Firing>('firing:G1');
    expect(firing).toMatchObject({ state: 'drawn', cones });
  });

  test('can have a piece taken out of it before it is lit', () => {
    const firing = given(
      ...materials,
      begin(TILES, 12),
      begin(JUG, 1),
      packed('B1', 'bisque', [TILES, JUG], '2026-02-05'),
    )
      .when('firing.unpack', { firing: 'B1', pieces: [JUG] })
      .state<Firing>('firing:B1');
    expect(firing.places.map((p) => p.piece)).toEqual([TILES]);
  });

  test('of the day, noted by the day only, stands in the order of the work', () => {
    const lot = given(
      ...materials,
      begin(JUG, 1, '2026-02-05'),
      packed('B1', 'bisque', [JUG], '2026-02-05'),
      done('2026-02-05', 'firing.light', { firing: 'B1' }),
      done('2026-02-05', 'firing.end', { firing: 'B1' }),
    ).state<Lot>(`piece:${JUG}`);
    expect(portionIn(lot, JUG)!.stage).toBe('bisque-fired');
  });
});

describe('a late entry', () => {
  test('is refused where it makes a later one impossible, and names that one', () => {
    given(
      ...materials,
      begin(JUG, 1),
      ...drawn('B1', 'bisque', [JUG], '2026-02-10'),
      glaze(JUG, '2026-02-12'),
    )
      .when('piece.leave', { piece: JUG, how: 'given' }, '2026-02-11')
      .refused('makes-later-impossible', /glaz.*12 February/i);
  });

  test('does not override a newer grade', () => {
    const lot = given(
      ...glazeFiredTiles,
      done('2026-02-16', 'firing.draw', { firing: 'G1' }),
      done('2026-03-10', 'piece.grade', { piece: TILES, second: 12 }),
    )
      .when('piece.grade', { piece: TILES, first: 12 }, '2026-02-17')
      .state<Lot>(`piece:${TILES}`);
    expect(portionIn(lot, TILES)!.gradings.map((g) => g.grade)).toEqual(['first', 'second']);
  });
});

describe('two rounds of work on one day', () => {
  const graded = (on: string) => [
    ...materials,
    begin(JUG, 1),
    ...drawn('B1', 'bisque', [JUG], '2026-02-10'),
    glaze(JUG, '2026-02-12'),
    ...drawn('G1', 'glaze', [JUG], '2026-02-14'),
    done(on, 'piece.grade', { piece: JUG, second: 1 }),
  ];
  const glazing = { piece: JUG, layers: [{ glaze: 'marram-green', coats: 1 }], zone: 'inside' };

  test('by the day only cannot stand, and the refusal asks for the time', () => {
    given(...graded('2026-02-16'))
      .when('glaze.apply', glazing, '2026-02-16')
      .refused('makes-later-impossible', /graded on 16 February 2026.*give the time of day/);
  });

  test('with the time of day stand in the order that they were done', () => {
    const lot = given(...graded('2026-02-16T10:00:00+00:00'))
      .when('glaze.apply', glazing, '2026-02-16T17:00:00+00:00')
      .state<Lot>(`piece:${JUG}`);
    expect(portionIn(lot, JUG)).toMatchObject({ stage: 'glazed', gradings: [{ grade: 'second' }] });
  });
});
