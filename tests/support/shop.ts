/** Hollin Yard's shop: items, an order or two, and a story in which everything happens once. */

import shopOrders from '../../plugins/shop-orders/index.ts';
import { buildRegistry } from '../../server/host/registry.ts';
import { studio } from '../../server/studio/studio.ts';
import { A_PDF_SHA256 } from './a-pdf.ts';
import { A_PICTURE } from './a-picture.ts';
import { done, givenIn, type Happening } from './given.ts';
import { drawn, materials, pounds } from './yard.ts';

export const shopRegistry = buildRegistry([studio, shopOrders]);
export const given = givenIn(shopRegistry);

export const POT = '01980000-0000-7000-8000-0000000000e1';

/** What the shop sells. Weights and sizes are invented. */
export const items: readonly Happening[] = [
  done('2026-01-05', 'item.add', {
    name: 'House Lantern template',
    kind: 'template',
    weight: 60,
    size: { length: 297, width: 210, thickness: 2 },
    sheets: 1,
    price: pounds(650),
    hs: '4911.99',
    origin: 'GB',
    content: 'Printed template, card',
    runOf: 10,
  }),
  done('2026-01-05', 'item.add', {
    name: 'Hedgerow stamp set',
    kind: 'stamps',
    weight: 180,
    size: { length: 160, width: 110, thickness: 18 },
    price: pounds(1800),
    hs: '6914.90',
    origin: 'GB',
    content: 'Texture stamps, fired clay',
    leadDays: 21,
  }),
];

export const stocked: readonly Happening[] = [
  ...items,
  done('2026-01-06', 'stock.print', { item: 'house-lantern-template', count: 20 }),
  done('2026-01-06', 'stock.make', { item: 'hedgerow-stamp-set', count: 3 }),
];

interface OrderMore {
  readonly lines?: readonly object[];
  readonly buyer?: string;
  readonly [field: string]: unknown;
}

/** An order of one House Lantern, or of `lines`. The people and places are invented. */
export const ordered = (number: string, on: string, more: OrderMore = {}): Happening =>
  done(on, 'order.place', {
    number,
    buyer: `buyer-${number}`,
    name: 'Isolde Farthingdown',
    address: '1 Nowhere Lane\nFarthing',
    postcode: 'ZZ1 1ZZ',
    country: 'GB',
    lines: [{ item: 'House Lantern template', quantity: 1, price: pounds(650) }],
    ...more,
  });

export const packed = (parcel: string, orders: readonly string[], on: string, more: object = {}): Happening =>
  done(on, 'parcel.pack', { parcel, orders, ...more });

export const posted = (parcel: string, on: string, more: object = {}): Happening =>
  done(on, 'parcel.post', { parcel, ...more });

/** A wall planter that came out a second and is sold as it is. */
export const pot: readonly Happening[] = [
  done('2026-02-01', 'piece.begin', {
    piece: POT,
    count: 1,
    mark: 'P1',
    form: 'wall planter',
    clay: 'fell-white',
  }),
  ...drawn('SB', 'bisque', [POT], '2026-02-10'),
  ...drawn('SG', 'glaze', [POT], '2026-02-14'),
  done('2026-02-16', 'piece.grade', { piece: POT, second: 1 }),
  done('2026-02-17', 'item.add', {
    name: 'Wall planter, second',
    kind: 'pot',
    piece: POT,
    price: pounds(2200),
  }),
];

/** Every event of the shop once, for logs that are kept and read models that are built anew. */
export const shopStory: readonly Happening[] = [
  done('2026-01-02', 'shop.set', {
    promiseDays: 4,
    origin: 'GB',
    sender: 'Hollin Yard Pottery\nThe Old Dairy\nNowhere',
    packagings: [{ id: 'board-envelope', name: 'Board envelope', weight: 40 }],
    rates: [{ of: 'JPY', to: 'GBP', rate: 0.0052, day: '2026-01-02' }],
  }),
  done('2026-01-02', 'tariff.write', {
    tariff: 'yard-post',
    name: 'Yard Post',
    from: '2026-01-01',
    zones: [{ id: 'home', name: 'Home', countries: ['GB'] }],
    services: [
      {
        id: 'letter',
        name: 'Letter',
        zone: 'home',
        formats: ['P', 'G', 'E'],
        tracked: false,
        steps: [{ upTo: 100, price: pounds(120) }],
      },
    ],
  }),
  ...stocked,
  done('2026-01-07', 'item.change', { item: 'hedgerow-stamp-set', weight: 185 }),
  done('2026-01-08', 'stock.break', { item: 'hedgerow-stamp-set', count: 1, why: 'dropped' }),
  done('2026-01-09', 'stock.count', {
    item: 'house-lantern-template',
    counted: 19,
    why: 'one gone for a sample',
  }),
  ...pot,
  ordered('1', '2026-02-20', { postage: pounds(240), note: 'a present' }),
  ordered('2', '2026-02-20', {
    lines: [{ item: 'Hedgerow stamp set', quantity: 1, price: { amount: 3400, currency: 'JPY' } }],
    country: 'JP',
  }),
  ordered('3', '2026-02-21', { lines: [{ item: 'Wall planter, second', quantity: 1, price: pounds(2200) }] }),
  ordered('4', '2026-02-21'),
  ordered('5', '2026-02-22'),
  done('2026-02-22', 'order.change', { order: 'shop/4', promise: '2026-03-01' }),
  done('2026-02-22', 'order.note-change', { order: 'shop/4', country: 'IE', way: 'feed' }),
  done('2026-02-22', 'order.decline-change', { order: 'shop/4' }),
  done('2026-02-22', 'order.cancel', { order: 'shop/4' }),
  packed('parcel-1', ['shop/1'], '2026-02-22', { packaging: 'board-envelope' }),
  done('2026-02-22', 'parcel.unpack', { parcel: 'parcel-1' }),
  packed('parcel-1b', ['shop/1'], '2026-02-23'),
  posted('parcel-1b', '2026-02-23', { service: 'Letter', number: 'RB123456785GB', cost: pounds(120) }),
  done('2026-02-24', 'parcel.track', { parcel: 'parcel-1b', said: 'Sorted' }),
  done('2026-02-26', 'parcel.arrive', { parcel: 'parcel-1b' }),
  packed('parcel-2', ['shop/2'], '2026-02-23'),
  posted('parcel-2', '2026-02-23'),
  done('2026-04-20', 'parcel.give-time', { parcel: 'parcel-2', until: '2026-04-24' }),
  done('2026-04-24', 'parcel.lose', { parcel: 'parcel-2', why: 'no word for two months' }),
  done('2026-04-24', 'order.replace', { order: 'shop/2', parcel: 'parcel-2' }),
  done('2026-04-24', 'order.refund', { order: 'shop/2', amount: { amount: 400, currency: 'JPY' } }),
  packed('parcel-3', ['shop/3'], '2026-02-24'),
  posted('parcel-3', '2026-02-24'),
  done('2026-03-10', 'parcel.come-back', { parcel: 'parcel-3', sound: true }),
  packed('parcel-5', ['shop/5'], '2026-02-24'),
  posted('parcel-5', '2026-02-24'),
  done('2026-04-28', 'parcel.assume-arrived', { parcel: 'parcel-5', after: 60 }),
  done('2026-03-01', 'order.note', { order: 'shop/5', note: 'likes the blue card' }),
  done('2026-03-01', 'order.tell', { order: 'shop/5', message: 'has-it-come' }),
  done('2026-03-02', 'order.keep-picture', {
    order: 'shop/5',
    ...A_PICTURE,
    allows: ['keep', 'show'],
  }),
  done('2026-01-05', 'item.add', {
    name: 'House Lantern file',
    kind: 'download',
  }),
  done('2026-01-05', 'item.give-file', {
    item: 'house-lantern-file',
    file: A_PDF_SHA256,
    called: 'house-lantern.pdf',
  }),
  done('2026-01-07', 'item.change', {
    item: 'house-lantern-template',
    paper: { plugin: 'template-sheets', paper: 'kept', input: { template: 'house-lantern' } },
    licence: 'For your own pots, and for those you sell.',
  }),
  ordered('6', '2026-03-03', { lines: [{ item: 'House Lantern file', quantity: 1 }] }),
  done('2026-03-03', 'download.grant', { download: 'download-1', order: 'shop/6', line: '1' }),
  done('2026-03-04', 'download.hand-out', { download: 'download-1' }),
  done('2026-03-05', 'download.withdraw', { download: 'download-1', why: 'it went to a wrong address' }),
];

export const shopStoryWithMaterials: readonly Happening[] = [...materials, ...shopStory];
