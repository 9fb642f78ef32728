import { describe, expect, test } from 'vitest';
import type { WareRow } from '../../web/api/studio.ts';
import { boxes } from '../../web/kilns/kiln-side.tsx';
import { byShelf, change, type Load, piecesIn, placesOf, toggle } from '../../web/kilns/load.ts';
import { strikesIn } from '../../web/log/log.tsx';
import { say } from '../../web/log/say.ts';
import { blank, materialInput } from '../../web/materials/draft.ts';
import { layersInput } from '../../web/piece/layers.tsx';
import { cautions } from '../../web/piece/mend.tsx';
import { dayBefore, periodOf, spanOf } from '../../web/review/period.ts';
import { beginInput } from '../../web/ware/begin.tsx';

const ware = (piece: string, count: number): WareRow => ({
  piece,
  mark: piece.toUpperCase(),
  count,
  form: 'beaker',
  clayName: null,
  owner: 'own',
  ownerName: null,
  stage: 'glazed',
  glazeNames: [],
  grade: null,
  inFiring: null,
  changedAt: '2026-05-01',
});

describe('packing a kiln', () => {
  test('a touch puts a piece on the shelf that is being packed, another takes it off', () => {
    const load = toggle(toggle([], ware('a', 8), 1, ['wash']), ware('b', 1), 2, []);
    expect(placesOf(load)).toEqual([
      { piece: 'a', shelf: 1, furniture: ['wash'] },
      { piece: 'b', shelf: 2 },
    ]);
    expect(piecesIn(load)).toBe(9);
    expect(placesOf(toggle(load, ware('a', 8), 3, []))).toEqual([{ piece: 'b', shelf: 2 }]);
  });

  test('only part of a lot has its count said', () => {
    const load: Load = change(toggle([], ware('a', 8), 1, []), 'a', { count: 5, position: ' back left ' });
    expect(placesOf(load)).toEqual([{ piece: 'a', shelf: 1, count: 5, position: 'back left' }]);
  });

  test('the load reads from the top shelf down, what has no shelf last', () => {
    const rows = [{ shelf: 3 }, { shelf: null }, { shelf: 1 }, { shelf: 3 }];
    expect(byShelf(rows).map(({ shelf, puts }) => [shelf, puts.length])).toEqual([
      [1, 1],
      [3, 2],
      [null, 1],
    ]);
  });

  test('ware on a shelf is drawn to scale: none is made smaller, none goes through the wall', () => {
    const mug = { size: { width: 90, height: 110, measured: 'fired' as const } };
    const few = boxes([mug, mug], 560, 150);
    expect(few.every((box) => box.width === 90 && box.height === 110 && box.noted)).toBe(true);
    expect(few[1]!.x).toBeGreaterThan(few[0]!.x + 90);
    for (const many of [
      boxes(
        Array.from({ length: 30 }, () => mug),
        560,
        150,
      ),
      boxes([mug], 560, 150),
    ]) {
      expect(many.every((box) => box.width === 90)).toBe(true);
      expect(many[0]!.x).toBeGreaterThanOrEqual(0);
      expect(Math.max(...many.map((box) => box.x + box.width))).toBeLessThanOrEqual(560.001);
    }
    expect(boxes([{}], 560, 150)[0]).toMatchObject({ noted: false });
  });
});

describe('what is recorded', () => {
  test('of a new piece is only what was said', () => {
    const draft = {
      form: ' jug ',
      count: 1,
      clay: '',
      how: '',
      owner: 'own',
      person: '',
      mark: '',
      price: '',
      secondPrice: 'x',
      width: '',
      height: '190',
      measured: 'wet',
    };
    expect(beginInput(draft, '0190')).toEqual({
      piece: '0190',
      count: 1,
      owner: { kind: 'own' },
      form: 'jug',
      size: { height: 190, measured: 'wet' },
    });
    expect(beginInput({ ...draft, owner: 'student', person: 'p1', height: '' }, '0190')).toMatchObject({
      owner: { kind: 'student', person: 'p1' },
    });
  });

  test('of glazing is each layer that has a glaze, the lowest first', () => {
    expect(
      layersInput([
        { glaze: 'marram-green', coats: 2, method: 'dipped' },
        { glaze: '', coats: 1, method: 'brushed' },
        { glaze: 'quicksilver-run', coats: 1, method: '' },
      ]),
    ).toEqual([
      { glaze: 'marram-green', coats: 2, method: 'dipped' },
      { glaze: 'quicksilver-run', coats: 1 },
    ]);
  });

  test('of a material is what belongs to its kind, shrinkage as a fraction', () => {
    const draft = {
      ...blank,
      name: ' Fell White ',
      shrinkage: '12.5',
      cone: '6',
      coneLow: '5',
      power: '9.6',
    };
    expect(materialInput('clay', draft)).toEqual({ name: 'Fell White', coneLow: '5', shrinkage: 0.125 });
    expect(materialInput('kiln', draft, 'big-round')).toEqual({
      id: 'big-round',
      name: 'Fell White',
      power: 9.6,
    });
    const steps = {
      ...draft,
      segments: [
        { rate: '100', target: '600', hold: '' },
        { rate: '', target: '1000', hold: '10' },
      ],
    };
    expect(materialInput('schedule', steps)).toEqual({
      name: 'Fell White',
      cone: '6',
      segments: [{ rate: 100, target: 600, hold: 0 }],
    });
  });
});

describe('a repair', () => {
  const own = { owner: { kind: 'own' } } as const;
  test('is not begun without being told where it can hurt', () => {
    expect(cautions('grind', own).join(' ')).toMatch(/respirator.*eye protection/);
    expect(cautions('fill-and-reglaze', own).join(' ')).toMatch(/damp ware bursts/);
    expect(cautions('refire-inverted', own).join(' ')).toMatch(/handbook/);
    expect(cautions('refire', own)).toEqual([]);
  });

  test('of a commission asks the client first', () => {
    expect(cautions('refire', { owner: { kind: 'commission', person: 'p' } })).toEqual([
      'It is a commission: ask the client before it is changed or refired.',
    ]);
  });
});

describe('a time to review', () => {
  test('is named by its days, and known again by them', () => {
    expect(spanOf('month', '2026-02-10')).toEqual({ from: '2026-02-01', to: '2026-02-28' });
    expect(spanOf('month', '2028-02-10')).toEqual({ from: '2028-02-01', to: '2028-02-29' });
    expect(spanOf('lastMonth', '2026-01-10')).toEqual({ from: '2025-12-01', to: '2025-12-31' });
    expect(spanOf('twelve', '2026-11-25')).toEqual({ from: '2025-12-01', to: '2026-11-30' });
    expect(spanOf('twelve', '2026-12-25')).toEqual({ from: '2026-01-01', to: '2026-12-31' });
    expect(spanOf('all', '2026-11-25')).toEqual({});
    for (const period of ['all', 'month', 'lastMonth', 'year', 'lastYear', 'twelve'] as const)
      expect(periodOf(spanOf(period, '2026-11-25'), '2026-11-25')).toBe(period);
    expect(periodOf({ from: '2026-01-05' }, '2026-11-25')).toBeUndefined();
  });

  test('of a year starts when the studio’s year does', () => {
    expect(spanOf('year', '2026-04-05', '04-06')).toEqual({ from: '2025-04-06', to: '2026-04-05' });
    expect(spanOf('year', '2026-04-06', '04-06')).toEqual({ from: '2026-04-06', to: '2027-04-05' });
    expect(spanOf('lastYear', '2026-11-25', '01-01')).toEqual({ from: '2025-01-01', to: '2025-12-31' });
    expect(dayBefore('2026-03-01')).toBe('2026-02-28');
  });
});

describe('the log', () => {
  const entry = (seq: number, name: string, data: unknown) => ({ seq, name, data }) as never;
  test('knows which of its lines were struck out, and by which', () => {
    const struck = strikesIn([
      entry(1, 'piece.begun', {}),
      entry(2, 'piece.graded', {}),
      entry(5, 'entry.struck', { seq: 2 }),
    ]);
    expect([...struck]).toEqual([[2, 5]]);
  });

  test('says what an entry holds in a few words, and nothing of a plugin’s that it does not know', () => {
    expect(say({ name: 'piece.graded', data: { first: 9, second: 2, waster: 0 } })).toBe('9 first, 2 second');
    expect(say({ name: 'fault.found', data: { kind: 'pinholes', zone: 'inside', count: 3 } })).toBe(
      'pinholes, inside, × 3',
    );
    expect(say({ name: 'order.placed', data: { buyer: 'x' } })).toBe('');
  });
});
