import { describe, expect, test } from 'vitest';
import type { Item } from '../../../plugins/shop-orders/state/item.ts';
import { type Order, openLines } from '../../../plugins/shop-orders/state/order.ts';
import type { Lot } from '../../../server/contract/studio/state.ts';
import { portionIn } from '../../../server/contract/studio/values.ts';
import { done } from '../../support/given.ts';
import { given, ordered, POT, packed, posted, pot, stocked } from '../../support/shop.ts';
import { studioHost } from '../../support/studio-host.ts';
import { materials, pounds } from '../../support/yard.ts';

const stamps = (quantity: number) => ({
  lines: [{ item: 'Hedgerow stamp set', quantity, price: pounds(1800) }],
});
const LANTERN = 'item:house-lantern-template';

describe('packing takes from the stock', () => {
  test('as many as go into the parcel', () => {
    const { stock, gone } = given(...stocked, ordered('1', '2026-02-01'))
      .when('parcel.pack', { parcel: 'p1', orders: ['shop/1'] }, '2026-02-02')
      .state<Item>(LANTERN);
    expect([stock, gone]).toEqual([19, 1]);
  });

  test('and not more than there are', () => {
    given(...stocked, ordered('1', '2026-02-01', stamps(4)))
      .when('parcel.pack', { parcel: 'p1', orders: ['shop/1'] }, '2026-02-02')
      .refused('not-in-stock', /Only 3 of Hedgerow stamp set are in stock, and 4 would go/);
  });

  test('unless I say that it goes anyway', () => {
    const { stock } = given(...stocked, ordered('1', '2026-02-01', stamps(4)))
      .when('parcel.pack', { parcel: 'p1', orders: ['shop/1'], anyway: true }, '2026-02-02')
      .state<Item>('item:hedgerow-stamp-set');
    expect(stock).toBe(-1);
  });

  test('gives it back when the parcel is taken apart', () => {
    const { stock } = given(...stocked, ordered('1', '2026-02-01'), packed('p1', ['shop/1'], '2026-02-02'))
      .when('parcel.unpack', { parcel: 'p1' }, '2026-02-02')
      .state<Item>(LANTERN);
    expect(stock).toBe(20);
  });

  test('and asks for a count where nobody ever counted', () => {
    given(ordered('1', '2026-02-01'))
      .when('parcel.pack', { parcel: 'p1', orders: ['shop/1'] }, '2026-02-02')
      .refused('not-in-stock', /has not been counted how many/);
  });

  test('a stocktake keeps what the books said, and why they differ', () => {
    given(...stocked)
      .when('stock.count', { item: 'house-lantern-template', counted: 17 }, '2026-02-02')
      .refused('say-why', /there are 20, and you counted 17/);
    given(...stocked)
      .when('stock.count', { item: 'house-lantern-template', counted: 17, why: 'damp' }, '2026-02-02')
      .then([
        'stock.counted',
        { item: 'house-lantern-template', counted: 17, expected: 20, why: expect.anything() },
      ]);
  });

  test('a printing that went out since cannot be struck out of the books by a late breakage', () => {
    given(...stocked, ordered('1', '2026-02-01', stamps(3)), packed('p1', ['shop/1'], '2026-02-05'))
      .when('stock.break', { item: 'hedgerow-stamp-set', count: 1 }, '2026-02-03')
      .refused('makes-later-impossible', /parcel packed/);
  });
});

test('two of us pack the last stamp set: one gets it, the other is told', async () => {
  const studio = await studioHost();
  try {
    await studio.tell(
      ...stocked,
      done('2026-01-07', 'stock.count', { item: 'hedgerow-stamp-set', counted: 1, why: 'two were chipped' }),
      ordered('1', '2026-02-01', stamps(1)),
      ordered('2', '2026-02-01', stamps(1)),
    );
    const both = await Promise.all([
      studio.ask('parcel.pack', { parcel: 'p1', orders: ['shop/1'] }, '2026-02-02'),
      studio.ask('parcel.pack', { parcel: 'p2', orders: ['shop/2'] }, '2026-02-02'),
    ]);
    expect(both.map((outcome) => outcome.outcome).sort()).toEqual(['recorded', 'refused']);
    expect(both.find((outcome) => outcome.outcome === 'refused')).toMatchObject({
      refusal: { code: 'not-in-stock', sentence: /None of Hedgerow stamp set is in stock/ },
    });
  } finally {
    await studio.close();
  }
});

describe('an order goes in one parcel or in several', () => {
  const two = {
    lines: [
      { item: 'House Lantern template', quantity: 2, price: pounds(650) },
      { item: 'Hedgerow stamp set', quantity: 1, price: pounds(1800) },
    ],
  };

  test('part of it now, the rest stays open', () => {
    const order = given(...stocked, ordered('1', '2026-02-01', two))
      .when(
        'parcel.pack',
        { parcel: 'p1', orders: ['shop/1'], lines: [{ order: 'shop/1', line: '1', quantity: 1 }] },
        '2026-02-02',
      )
      .state<Order>('order:shop/1');
    expect(openLines(order).map(({ line, open }) => [line, open])).toEqual([
      ['1', 1],
      ['2', 1],
    ]);
  });

  test('two orders of one buyer go together', () => {
    const recorded = given(
      ...stocked,
      ordered('1', '2026-02-01', { buyer: 'isolde' }),
      ordered('2', '2026-02-02', { buyer: 'isolde' }),
    )
      .when('parcel.pack', { parcel: 'p1', orders: ['shop/1', 'shop/2'] }, '2026-02-03')
      .recorded();
    expect(recorded[0]!.data).toMatchObject({ placed: '2026-02-01', weight: 120, format: 'G' });
    expect(recorded[0]!.streams).toEqual(['parcel:p1', 'order:shop/1', 'order:shop/2', LANTERN]);
  });

  test('and not those of two buyers', () => {
    given(...stocked, ordered('1', '2026-02-01'), ordered('2', '2026-02-01'))
      .when('parcel.pack', { parcel: 'p1', orders: ['shop/1', 'shop/2'] }, '2026-02-03')
      .refused('not-one-buyer', /different buyers/);
  });

  test('nothing is packed twice', () => {
    given(...stocked, ordered('1', '2026-02-01'), packed('p1', ['shop/1'], '2026-02-02'))
      .when('parcel.pack', { parcel: 'p2', orders: ['shop/1'] }, '2026-02-03')
      .refused('nothing-to-pack');
  });

  test('what was lost is packed again, and both parcels stay in the story', () => {
    const order = given(
      ...stocked,
      ordered('1', '2026-02-01'),
      packed('p1', ['shop/1'], '2026-02-02'),
      posted('p1', '2026-02-02'),
      done('2026-04-02', 'parcel.lose', { parcel: 'p1' }),
      done('2026-04-02', 'order.replace', { order: 'shop/1', parcel: 'p1' }),
    )
      .when('parcel.pack', { parcel: 'p2', orders: ['shop/1'] }, '2026-04-03')
      .state<Order>('order:shop/1');
    expect(order.parcels.map(({ parcel, state, again }) => [parcel, state, again])).toEqual([
      ['p1', 'lost', false],
      ['p2', 'packed', true],
    ]);
  });
});

describe('a pot is one piece of the studio', () => {
  const buy = (number: string) =>
    ordered(number, '2026-02-20', {
      lines: [{ item: 'Wall planter, second', quantity: 1, price: pounds(2200) }],
    });
  const here = [...materials, ...pot];

  test('that leaves the studio with its parcel, at its price, to its buyer', () => {
    const lot = given(...here, buy('1'), packed('p1', ['shop/1'], '2026-02-21'))
      .when('parcel.post', { parcel: 'p1' }, '2026-02-22')
      .state<Lot>(`piece:${POT}`);
    expect(portionIn(lot, POT)).toMatchObject({
      stage: 'left',
      left: { how: 'posted', to: 'buyer-1', price: pounds(2200) },
    });
  });

  test('and is sold once only', () => {
    given(...here, buy('1'), buy('2'), packed('p1', ['shop/1'], '2026-02-21'))
      .when('parcel.pack', { parcel: 'p2', orders: ['shop/2'] }, '2026-02-21')
      .refused('sold-already', /it is in another parcel already/);
    given(...here, buy('1'), done('2026-02-20', 'piece.leave', { piece: POT, how: 'sold' }))
      .when('parcel.pack', { parcel: 'p1', orders: ['shop/1'] }, '2026-02-21')
      .refused('sold-already', /has left the studio already/);
  });

  test('and can be sold again when it came back sound', () => {
    const lot = given(
      ...here,
      buy('1'),
      buy('2'),
      packed('p1', ['shop/1'], '2026-02-21'),
      posted('p1', '2026-02-22'),
      done('2026-03-10', 'parcel.come-back', { parcel: 'p1', sound: true }),
      packed('p2', ['shop/2'], '2026-03-11'),
    )
      .when('parcel.post', { parcel: 'p2' }, '2026-03-11')
      .state<Lot>(`piece:${POT}`);
    expect(portionIn(lot, POT)).toMatchObject({ stage: 'left', left: { to: 'buyer-2' } });
  });
});
