/** Which fault can come from what: common practice, no source. */
import { describe, expect, test } from 'vitest';
import { dealt } from '../../plugins/seconds-tally/first-firing.ts';
import { suspectsOf } from '../../plugins/seconds-tally/suspects.ts';
import { FAULTS, ZONES } from '../../server/contract/trade.ts';

const glazing = (zone: string | undefined, ...glazes: string[]) => ({
  seq: 1,
  at: '2026-02-12',
  ...(zone ? { zone } : {}),
  layers: glazes.map((glaze) => ({ glaze, coats: 1 })),
});
const jug = [
  glazing('inside', 'cuttle-white'),
  glazing('outside', 'marram-green', 'oyster-satin'),
  glazing('rim', 'quicksilver-run'),
];
const ALL = ['cuttle-white', 'marram-green', 'oyster-satin', 'quicksilver-run'];
const glazes = (kind: string | undefined, zone?: string) =>
  suspectsOf(kind === undefined ? undefined : { kind, ...(zone ? { zone } : {}) }, jug).glazes;

describe('suspected of a fault', () => {
  const ON_THE_GLAZE = [
    'pinholes',
    'blisters',
    'crawling',
    'crazing',
    'shivering',
    'dry',
    'colour-off',
    'metal-scum',
  ];
  test.each(ON_THE_GLAZE)(
    'in the glaze (%s) are the layers of its zone, or all where no zone is given',
    (kind) => {
      expect(glazes(kind, 'outside')).toEqual(['marram-green', 'oyster-satin']);
      expect(glazes(kind, 'inside')).toEqual(['cuttle-white']);
      expect(glazes(kind)).toEqual(ALL);
    },
  );

  test.each(['runs', 'stuck'])(
    'that came down the pot (%s) are the glazes of the zone and of those above',
    (kind) => {
      expect(glazes(kind, 'outside')).toEqual(['marram-green', 'oyster-satin', 'quicksilver-run']);
      expect(glazes(kind, 'foot')).toEqual(['marram-green', 'oyster-satin', 'quicksilver-run']);
      expect(glazes(kind, 'inside')).toEqual(['cuttle-white', 'quicksilver-run']);
      expect(glazes(kind, 'rim')).toEqual(['quicksilver-run']);
      expect(glazes(kind)).toEqual(ALL);
    },
  );

  test.each(['crack', 'warping', 'bloating', 'dunting', 'broken'])(
    'of the body (%s) is never a glaze',
    (kind) => {
      expect(suspectsOf({ kind, zone: 'outside' }, jug)).toEqual({
        glazes: [],
        also: ['clay', 'bisque', 'schedule', 'firing'],
      });
    },
  );

  test('of specks is the firing alone, besides bad luck', () => {
    expect(suspectsOf({ kind: 'specks' }, jug)).toEqual({ glazes: [], also: ['firing'] });
  });

  test('where no fault is noted, or one of the user’s own, is everything', () => {
    for (const kind of [undefined, 'other', 'moth-holes']) {
      expect(glazes(kind, 'outside')).toEqual(ALL);
      expect(suspectsOf(kind ? { kind } : undefined, jug).also).toEqual([
        'clay',
        'bisque',
        'schedule',
        'firing',
      ]);
    }
  });

  test('on a zone without glaze are all glazes, for the zone may be wrong', () => {
    expect(glazes('pinholes', 'foot')).toEqual(ALL);
  });

  test('with a glaze that covers the whole piece is that one in every zone', () => {
    const dipped = [glazing(undefined, 'clear-tin'), glazing('rim', 'madder-rose')];
    for (const zone of ZONES.filter((it) => it !== 'rim'))
      expect(suspectsOf({ kind: 'pinholes', zone }, dipped).glazes).toEqual(['clear-tin']);
  });

  test.each(FAULTS)('for %s is something said at all', (kind) => {
    const { glazes: some, also } = suspectsOf({ kind }, jug);
    expect(some.length + also.length).toBeGreaterThan(0);
  });
});

describe('faults of a lot', () => {
  const fault = (kind: string, count: number) => ({ kind, count });
  const groups = (count: number, ...faults: ReturnType<typeof fault>[]) =>
    dealt(faults, count).map((it) => [it.count, it.faults.map(({ kind }) => kind)]);

  test('go to different pieces while there are pieces without one', () => {
    expect(groups(5, fault('runs', 2), fault('dry', 2))).toEqual([
      [2, ['runs']],
      [2, ['dry']],
      [1, []],
    ]);
  });

  test('begin again with the first piece when all have one', () => {
    expect(groups(3, fault('runs', 2), fault('dry', 2))).toEqual([
      [1, ['runs', 'dry']],
      [1, ['runs']],
      [1, ['dry']],
    ]);
    expect(groups(2, fault('runs', 2), fault('dry', 2))).toEqual([[2, ['runs', 'dry']]]);
  });

  test('of a lot without any leave it whole', () => {
    expect(groups(4)).toEqual([[4, []]]);
  });
});
