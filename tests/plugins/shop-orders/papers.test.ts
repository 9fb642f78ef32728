import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { done } from '../../support/given.ts';
import { ink, lookAt } from '../../support/looked-at.ts';
import { ordered, packed, stocked } from '../../support/shop.ts';
import { type StudioHost, studioHost } from '../../support/studio-host.ts';
import { pounds } from '../../support/yard.ts';

let studio: StudioHost;
const print = (paper: string, params: Record<string, string> = {}) =>
  studio.host.paper('shop-orders', paper, params);
const pages = async (paper: string, params: Record<string, string> = {}) => {
  const looked = lookAt((await print(paper, params)).pdf);
  return Array.from({ length: looked.pages }, (_, page) => ({
    ...looked.size(page),
    text: looked.text(page),
  }));
};

const stamps = (quantity: number) => [{ item: 'Hedgerow stamp set', quantity, price: pounds(1800) }];

beforeAll(async () => {
  studio = await studioHost();
  await studio.tell(
    done('2026-01-02', 'shop.set', { origin: 'GB', sender: 'Hollin Yard Pottery\nThe Old Dairy\nNowhere' }),
    ...stocked,
    done('2026-01-06', 'stock.make', { item: 'hedgerow-stamp-set', count: 50 }),
    ordered('1', '2026-05-01'),
    ordered('2', '2026-05-01', {
      name: '窯田 しのぶ',
      address: '東京都架空区\n1-2-3',
      postcode: '000-0000',
      country: 'JP',
      lines: stamps(2),
    }),
    ordered('3', '2026-05-01', {
      name: 'ليان الفخّاري 🏺',
      address: 'شارع لا مكان ١\nلا مكان',
      country: 'SA',
      lines: stamps(20),
    }),
    packed('p1', ['shop/1'], '2026-05-02'),
    packed('p2', ['shop/2'], '2026-05-02'),
    packed('p3', ['shop/3'], '2026-05-02'),
  );
});
afterAll(() => studio.close());

test('a packing slip says what lies in each parcel that waits', async () => {
  const found = await pages('packing-slip');
  expect(found).toHaveLength(3);
  expect(found[0]!.text).toMatch(/Hollin Yard Pottery[\s\S]*1 Nowhere Lane[\s\S]*House Lantern template/);
  expect((await pages('packing-slip', { parcel: 'p2' }))[0]!.text).toContain('Hedgerow stamp set');
});

describe('address labels', () => {
  test('fill a sheet from the first free one, in the order of the destination', async () => {
    const found = await pages('address-labels', { parcels: 'p1,p2,p3', start: '7' });
    expect(found).toHaveLength(2);
    expect(found[0]!.width).toBeCloseTo(210, 1);
    expect(found[0]!.text).toContain('JAPAN');
    expect(found[0]!.text.indexOf('〒000-0000')).toBeLessThan(found[0]!.text.indexOf('窯田'));
    expect(found[1]!.text).toContain('SAUDI ARABIA');
  });

  test('or a page each, of the label’s own size', async () => {
    const found = await pages('address-labels', { parcels: 'p1', paper: 'one', width: '100', height: '62' });
    expect([found[0]!.width, found[0]!.height].map((side) => Math.round(side * 10) / 10)).toEqual([100, 62]);
    expect(found[0]!.text).toMatch(/ZZ1 1ZZ/);
    expect(found[0]!.text).not.toContain('UNITED KINGDOM');
  });

  test('of a grid that does not fit on the sheet are refused, with how far it would reach', async () => {
    await expect(print('address-labels', { columns: '3' })).rejects.toThrow(/reach to 301\.5 by/);
    await expect(print('address-labels', { across: '50' })).rejects.toThrow(/lie over each other/);
  });

  test('of the sheets in my drawer: three by seven with gaps, kept once, at their true places', async () => {
    // An invented sheet: margins 7.2 and 15.1 mm, labels 63.5 by 38.1 mm, 2.5 mm between columns.
    const drawer = {
      paper: 'A4',
      columns: 3,
      rows: 7,
      width: 63.5,
      height: 38.1,
      left: 7.2,
      top: 15.1,
      across: 66,
      down: 38.1,
    };
    await studio.tell(done('2026-05-02', 'shop.set', { labels: drawer }));
    const looked = lookAt((await print('address-labels', { parcels: 'p1,p2', start: '5' })).pdf);
    const near = (x: number, y: number) =>
      ink(looked.raster(0, 72, { x, y, width: drawer.width, height: drawer.height })) > 0;
    // Fifth: second row, second column; sixth: second row, third column. Nothing on the others.
    expect(
      [1, 2, 3, 4, 5, 6, 7].map((n) => near(7.2 + ((n - 1) % 3) * 66, 15.1 + Math.floor((n - 1) / 3) * 38.1)),
    ).toEqual([false, false, false, false, true, true, false]);
    await expect(print('address-labels', { parcels: 'p1', start: '22' })).rejects.toThrow(
      /There are 21 labels/,
    );
  });

  test('of a drawer that cannot be are not kept', async () => {
    const wide = {
      paper: 'A4',
      columns: 4,
      rows: 7,
      width: 63.5,
      height: 38.1,
      left: 7.2,
      top: 15.1,
      across: 66,
      down: 38.1,
    };
    expect(await studio.ask('shop.set', { labels: wide })).toMatchObject({
      refusal: { code: 'no-such-labels', field: 'labels.columns', sentence: /A4 is 210 by 297 mm/ },
    });
  });
});

test('a label in any script is of letters that a reader finds again, and none is missing', async () => {
  const scripts: [string, string, string, string][] = [
    ['9', 'יעל הקדרית', 'רחוב שומקום 0\nאיןעיר', 'IL'],
    ['10', 'मीरा कुम्हार', '० कहीं नहीं मार्ग\nअनगर', 'IN'],
    ['11', 'ดินเผา ไม่มีจริง', '0 ถนนไร้ที่\nเมืองว่าง', 'TH'],
    ['12', 'ნინო მეთუნე', 'არსადის ქუჩა 0\nარსადი', 'GE'],
    ['13', 'Odalys Quimera 🎉', 'Calle Ninguna 0\nNingunaparte', 'ES'],
  ];
  await studio.tell(
    ...scripts.map(([n, name, address, country]) => ordered(n, '2026-05-01', { name, address, country })),
    ...scripts.map(([n]) => packed(`q${n}`, [`shop/${n}`], '2026-05-02', { anyway: true })),
  );
  const found = await pages('address-labels', {
    parcels: scripts.map(([n]) => `q${n}`).join(','),
    paper: 'one',
    width: '99',
    height: '67',
  });
  for (const [at, letters] of ['הקדרית', 'मीरा', 'ดินเผา', 'ნინო', 'Odalys'].entries())
    expect(found[at]!.text.normalize('NFC'), letters).toContain(letters);
  expect(found.every(({ text }) => !text.includes('\uFFFD'))).toBe(true);
});

describe('a customs declaration', () => {
  test('asks for the rate to SDR before it says which form will do', async () => {
    await expect(print('customs', { parcel: 'p2' })).rejects.toThrow(/give a rate from GBP to XDR/);
    await expect(print('customs', { parcel: 'p1' })).rejects.toThrow(/stay in the country/);
  });

  test('is CN 22 up to the threshold and CN 23 above it', async () => {
    await studio.tell(
      done('2026-05-02', 'shop.set', { rates: [{ of: 'GBP', to: 'XDR', rate: 1, day: '2026-05-01' }] }),
    );
    const [small] = await pages('customs', { parcel: 'p2' });
    expect(small!.text).toMatch(
      /CN 22[\s\S]*Texture stamps, fired clay[\s\S]*0\.360[\s\S]*36\.00 GBP[\s\S]*6914\.90/,
    );
    // From memory of the UPU's forms: CN 22 of 74 by 105 mm, CN 23 of 210 by 148 mm.
    const [sticker] = await pages('customs', { parcel: 'p2', paper: 'label' });
    expect([sticker!.width, sticker!.height].map(Math.round)).toEqual([74, 105]);
    expect(sticker!.text).toMatch(/CN 22[\s\S]*Texture stamps[\s\S]*6914\.90/);
    expect(sticker!.text).toContain('36.00 GBP');
    const [sheet] = await pages('customs', { parcel: 'p3', paper: 'label' });
    expect([sheet!.width, sheet!.height].map(Math.round)).toEqual([210, 148]);
    const [large] = await pages('customs', { parcel: 'p3' });
    expect(large!.text).toContain('CN 23');
    expect(large!.text).toContain('360.00 GBP');
  });
});
