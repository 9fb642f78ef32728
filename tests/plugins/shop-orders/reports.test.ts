import poissonCdf from '@stdlib/stats-base-dists-poisson-cdf';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { converted } from '../../../plugins/shop-orders/reports/money.ts';
import { partsOf } from '../../../plugins/shop-orders/reports/period.ts';
import { demandOf, enoughFor } from '../../../plugins/shop-orders/statistics/reorder-point.ts';
import { moneyInWords } from '../../../server/contract/amounts.ts';
import { plainAmount } from '../../../server/contract/money.ts';
import { done } from '../../support/given.ts';
import { items, ordered, packed, posted, stocked } from '../../support/shop.ts';
import { type StudioHost, studioHost } from '../../support/studio-host.ts';
import { pounds } from '../../support/yard.ts';

describe('the point at which to make again', () => {
  test('is the smallest stock that demand does not exceed so often (Poisson)', () => {
    // Three a week, one week to wait, 95 %: P(X ≤ 5) = 0.916, P(X ≤ 6) = 0.966 (any Poisson table).
    expect(poissonCdf(5, 3)).toBeCloseTo(0.9161, 4);
    expect(poissonCdf(6, 3)).toBeCloseTo(0.9665, 4);
    expect(enoughFor({ mean: 3, variance: 3 }, 1, 0.95)).toBe(6);
    expect(enoughFor({ mean: 3, variance: 3 }, 1, 0.9)).toBe(5);
    expect(enoughFor({ mean: 0, variance: 0 }, 3, 0.95)).toBe(0);
  });

  test('is higher where demand comes in bursts (negative binomial)', () => {
    const bursts = demandOf([0, 0, 9, 0, 0, 9, 0, 0]);
    expect(bursts.mean).toBeCloseTo(2.25, 12);
    expect(bursts.variance).toBeGreaterThan(bursts.mean);
    const steady = enoughFor({ mean: 2.25, variance: 2.25 }, 3, 0.95);
    expect(enoughFor(bursts, 3, 0.95)).toBeGreaterThan(steady);
  });
});

describe('money', () => {
  // ISO 4217, list one: JPY has no minor unit, KWD three digits.
  test('has the digits of its currency', () => {
    expect(plainAmount(2400, 'JPY')).toBe('2400');
    expect(plainAmount(2400, 'KWD')).toBe('2.400');
    expect(plainAmount(2400, 'GBP')).toBe('24.00');
    expect(moneyInWords({ amount: 1234500, currency: 'KWD' })).toMatch(/1,234\.500/);
    expect(() => plainAmount(1, 'ZZZ')).toThrow(/no currency/);
  });

  test('of two currencies is only added by a rate of yours, the latest, either way round', () => {
    const rates = [
      { of: 'JPY', to: 'GBP', rate: 0.006, day: '2026-01-01' },
      { of: 'GBP', to: 'JPY', rate: 200, day: '2026-05-01' },
    ];
    expect(converted(2000, 'JPY', 'GBP', rates)).toBe(1000);
    expect(converted(1000, 'GBP', 'JPY', rates)).toBe(2000);
    expect(converted(1000, 'EUR', 'GBP', rates)).toBeUndefined();
  });
});

test('a period is whole months and the days at its ends', () => {
  expect(partsOf({ from: '2026-01-15', to: '2026-04-10' })).toEqual({
    months: ['2026-02', '2026-03'],
    days: [
      ['2026-01-15', '2026-01-31'],
      ['2026-04-01', '2026-04-10'],
    ],
  });
  expect(partsOf({ from: '2026-01-01', to: '2026-02-28' })).toEqual({
    months: ['2026-01', '2026-02'],
    days: [],
  });
  expect(partsOf({ from: '2026-01-05', to: '2026-01-20' })).toEqual({ days: [['2026-01-05', '2026-01-20']] });
  expect(partsOf({ from: '2025-12-31' })).toEqual({
    months: ['2026-01', '9999-12'],
    days: [['2025-12-31', '2025-12-31']],
  });
});

let studio: StudioHost;
const report = (name: string, params: Record<string, string> = {}) =>
  studio.host.report('shop-orders', name, params);

/** Ten orders to Japan, posted on the third day; eight arrive after 10 to 17 days, one is lost, one is on its way. */
const toJapan = Array.from({ length: 10 }, (_, n) => {
  const day = (on: number) => `2026-05-${String(on).padStart(2, '0')}`;
  const parcel = `jp-${n}`;
  return [
    ordered(`J${n}`, day(1), { country: 'JP', promise: n < 9 ? day(4) : day(3), postage: pounds(900) }),
    packed(parcel, [`shop/J${n}`], day(4)),
    posted(parcel, day(4), { cost: pounds(850) }),
    ...(n < 8 ? [done(day(14 + n), 'parcel.arrive', { parcel })] : []),
    ...(n === 8 ? [done('2026-06-20', 'parcel.lose', { parcel })] : []),
  ];
}).flat();

beforeAll(async () => {
  studio = await studioHost();
  await studio.tell(
    ...stocked,
    ...toJapan,
    ordered('H1', '2026-06-20', {
      promise: '2026-06-24',
      lines: [{ item: 'House Lantern template', quantity: 6 }],
    }),
    ordered('H2', '2026-06-21', {
      promise: '2026-06-23',
      lines: [{ item: 'Hedgerow stamp set', quantity: 2 }],
    }),
    ordered('H3', '2026-06-21', {
      promise: '2026-06-25',
      lines: [{ item: 'Hedgerow stamp set', quantity: 2 }],
    }),
    ordered('H4', '2026-06-22', {
      promise: '2026-07-25',
      lines: [{ item: 'Wall Pocket template', quantity: 1 }],
    }),
  );
});
afterAll(() => studio.close());

describe('what to do today', () => {
  test('in the order of the promised days, with what cannot go and what to make for it', async () => {
    const { rows, sentence, more } = await report('today');
    expect(rows.map(({ order, item, quantity, state, why }) => [order, item, quantity, state, why])).toEqual([
      ['H2', 'Hedgerow stamp set', 2, 'pack', ''],
      ['H1', 'House Lantern template', 6, 'pack', ''],
      ['H3', 'Hedgerow stamp set', 2, 'short', '1 left in stock, 2 wanted: make 1 Hedgerow stamp set'],
      ['H4', 'Wall Pocket template', 1, 'ask', 'it has not been counted how many are in stock'],
    ]);
    expect(sentence).toBe(
      '2 lines can be packed; 1 line waits for stock; 1 line waits for an answer: 3 past the promised day.',
    );
    expect(more).toMatchObject({ make: [{ item: 'hedgerow-stamp-set', missing: 1, orders: 1 }] });
  });

  test('as it was on a day', async () => {
    const { rows } = await report('today', { 'as-at': '2026-06-20' });
    expect(rows.map(({ order }) => order)).toEqual(['H1']);
  });
});

describe('posted and arrived', () => {
  test('by country, with what is on its way counted for as long as it has been seen', async () => {
    const { rows } = await report('fulfilment');
    expect(rows.find((row) => row.country === 'JP')).toMatchObject({
      orders: 10,
      posted: 10,
      onTime: 9,
      onTimeRate: 0.9,
      daysToPost: 3,
      // Of ten, half have come with the fifth, which took 14 days.
      daysToArrive: 14,
      lost: 1,
      arrived: 8,
    });
    const home = rows.find((row) => row.country === 'GB')!;
    expect(home).toMatchObject({ orders: 4, posted: 0, onTimeRate: null, daysToPost: null, overdue: 3 });
  });

  test('Wilson’s limits stand beside the rate', async () => {
    const { rows } = await report('fulfilment', { from: '2026-05-01', to: '2026-05-31' });
    expect(rows).toHaveLength(1);
    // 9 of 10: 0.5958 to 0.9821 (E. B. Wilson 1927, without continuity correction).
    expect(rows[0]!.low).toBeCloseTo(0.5958, 4);
    expect(rows[0]!.high).toBeCloseTo(0.9821, 4);
  });

  test('is the same from days as from months', async () => {
    const [whole] = (await report('fulfilment', { from: '2026-05-01', to: '2026-05-31' })).rows;
    const [days] = (await report('fulfilment', { from: '2026-04-30', to: '2026-05-30' })).rows;
    expect(days).toEqual(whole);
  });
});

test('a parcel later than 95 in 100 of its like is put forward: ask, then send again', async () => {
  const asked = async (asAt: string) => (await report('in-the-post', { 'as-at': asAt })).rows;
  const then = async (day: string) => (await asked(day)).find(({ order }) => order === 'J9');
  expect(await then('2026-05-20')).toMatchObject({ days: 16, advice: 'not known yet', lateBeyond: null });
  // Day 13, eleven at risk: 1 - (10/11)(9/10)(8/9)(7/8) = 4/11; heard of in the end: 1 - (7/11)(5/6)(4/5)(3/4)(2/3) = 26/33.
  await studio.tell(
    ordered('J10', '2026-05-20', { country: 'JP' }),
    packed('jp-10', ['shop/J10'], '2026-05-20'),
    posted('jp-10', '2026-05-20'),
  );
  const early = (await asked('2026-06-02')).find(({ order }) => order === 'J10');
  expect(early).toMatchObject({ days: 13, advice: 'wait', like: 'Japan' });
  expect(early!.lateBeyond).toBeCloseTo(6 / 13, 9);
  const [late] = (await report('in-the-post')).rows;
  expect(late).toMatchObject({
    order: 'J9',
    country: 'JP',
    posted: '2026-05-04',
    days: 57,
    lateBeyond: 1,
    advice: 'ask',
  });
  await studio.tell(done('2026-06-10', 'order.tell', { order: 'shop/J9', message: 'has-it-come' }));
  const again = (await report('in-the-post')).rows.find(({ order }) => order === 'J9');
  expect(again).toMatchObject({ advice: 'send again' });
});

test('postage that was paid stands beside what was charged for it', async () => {
  const { rows } = await report('postage', { from: '2026-05-01', to: '2026-05-31' });
  expect(rows.find(({ country }) => country === 'JP')).toMatchObject({
    paid: 8500,
    charged: 9000,
    difference: 500,
  });
});

test('the service level has its say in what to make again', async () => {
  const at = async (level: string) =>
    (await report('reorder', { 'service-level': level })).rows.find(
      ({ item }) => item === 'hedgerow-stamp-set',
    )!;
  expect((await at('0.99')).reorderAt).toBeGreaterThan((await at('0.6')).reorderAt as number);
  expect(await at('0.95')).toMatchObject({ stock: 3, leadDays: 21 });
  expect(items).toHaveLength(2);
});
