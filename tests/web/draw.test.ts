import { describe, expect, test } from 'vitest';
import type { PlaceRow } from '../../web/api/studio.ts';
import {
  another,
  begun,
  isDone,
  pickCount,
  pickGrade,
  pickKind,
  pickRepair,
  pickZone,
  restGood,
  restOf,
  toLookOver,
  toMend,
  wish,
} from '../../web/kilns/draw/look.ts';

const place = (more: Partial<PlaceRow> = {}): PlaceRow =>
  ({
    piece: 'a',
    count: 12,
    grade: null,
    faults: [],
    drawn: false,
    latest: true,
    stage: 'glaze-fired',
    ...more,
  }) as PlaceRow;

describe('drawing a kiln', () => {
  test('what is graded, drawn, passed, has a fault noted, is gone or was fired again since is not looked over again', () => {
    expect(toLookOver(place(), [])).toBe(true);
    expect(toLookOver(place({ grade: 'first' }), [])).toBe(false);
    expect(toLookOver(place({ drawn: true }), [])).toBe(false);
    expect(toLookOver(place({ latest: false }), [])).toBe(false);
    expect(toLookOver(place({ stage: 'left' }), [])).toBe(false);
    expect(toLookOver(place({ faults: [{ kind: 'specks', zone: null, count: 1 }] }), [])).toBe(false);
    expect(toLookOver(place(), ['a'])).toBe(false);
  });

  test('a piece with pinholes inside that is a second: kind, zone, grade, and all is said', () => {
    const look = pickGrade(pickZone(pickKind(begun(1), 'pinholes'), 'inside'), 'second');
    expect(isDone(look)).toBe(true);
    expect(wish(place(), 'g1', look.parts)).toEqual({
      command: 'piece.look-over',
      input: {
        piece: 'a',
        firing: 'g1',
        parts: [{ count: 1, grade: 'second', faults: [{ kind: 'pinholes', zone: 'inside' }] }],
      },
    });
  });

  test('two faults on one piece, mended for both, are one part', () => {
    const first = another(pickZone(pickKind(begun(1), 'runs'), 'foot'));
    const look = pickRepair(toMend(pickZone(pickKind(first, 'specks'), undefined)), 'grind');
    expect(look.parts).toEqual([
      {
        count: 1,
        faults: [{ kind: 'runs', zone: 'foot' }, { kind: 'specks' }],
        grade: 'second',
        repair: 'grind',
      },
    ]);
  });

  test('of eight, two are seconds with pinholes, one is broken, and the other five are good', () => {
    const two = pickGrade(pickCount(pickZone(pickKind(begun(8), 'pinholes'), 'inside'), 2), 'second');
    expect([two.step, restOf(two)]).toEqual(['rest', 6]);
    const one = pickGrade(pickCount(pickKind({ ...two, step: 'kind' }, 'broken'), 1), 'waster');
    expect(restGood(one)).toEqual([
      { count: 2, grade: 'second', faults: [{ kind: 'pinholes', zone: 'inside' }] },
      { count: 1, grade: 'waster', faults: [{ kind: 'broken' }] },
      { count: 5, grade: 'first' },
    ]);
  });

  test('of the last one of a lot no number is asked', () => {
    const seven = pickGrade(pickCount(pickZone(pickKind(begun(8), 'dry'), undefined), 7), 'second');
    expect(pickZone(pickKind(seven, 'crack'), 'rim')).toMatchObject({ step: 'grade', count: 1 });
  });

  test('bisque ware that goes on to glazing is not graded, with a fault or without', () => {
    const look = pickGrade(pickCount(pickZone(pickKind(begun(8), 'crack'), 'rim'), 1), undefined);
    expect(look.parts).toEqual([{ count: 1, faults: [{ kind: 'crack', zone: 'rim' }] }]);
    expect(pickGrade(pickZone(pickKind(begun(1), 'crack'), 'rim'), undefined).parts[0]).not.toHaveProperty(
      'grade',
    );
  });
});
