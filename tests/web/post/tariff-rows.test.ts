import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { tariffFacts } from '../../../plugins/shop-orders/post/tariff-facts.ts';
import { blankRow, pasted, type Row, rowsOf, tariffOf, wrongRows } from '../../../web/post/tariff-rows.ts';
import type { Tariff } from '../../../web/post/types.ts';

/* An invented carrier. */
const row = (more: Partial<Row> = {}): Row => ({
  zone: 'Near',
  countries: 'FR DE NL',
  service: 'Small packet',
  formats: 'G E',
  tracked: true,
  compensation: '50',
  upTo: '500',
  price: '8.75',
  ...more,
});
const far = row({ zone: 'Far', countries: '*', price: '12' });

const said = (wrong: readonly { sentence: string }[] | undefined) =>
  wrong!.map(({ sentence }) => sentence).join(' ');

describe('a table of prices', () => {
  test('is taken as it is typed, weights in order', () => {
    const rows = [row({ upTo: '1 000', price: '11,50' }), row(), blankRow, far];
    expect(wrongRows(rows, 'GBP')).toEqual([[], [], [], []]);
    const facts = { tariff: 'yard-post', name: 'Yard Post', from: '2026-01-01', ...tariffOf(rows, 'GBP') };
    expect(tariffFacts.parse(facts)).toMatchObject({
      zones: [
        { id: 'near', countries: ['DE', 'FR', 'NL'] },
        { id: 'far', countries: 'rest' },
      ],
      services: [
        {
          id: 'small-packet-near',
          formats: ['G', 'E'],
          tracked: true,
          compensation: { amount: 5000, currency: 'GBP' },
          steps: [
            { upTo: 500, price: { amount: 875, currency: 'GBP' } },
            { upTo: 1000, price: { amount: 1150, currency: 'GBP' } },
          ],
        },
        { id: 'small-packet-far' },
      ],
    });
  });

  test.each<[string, Partial<Row>, RegExp]>([
    ['no zone', { zone: ' ' }, /zone needs a name/],
    ['a country in words', { countries: 'France' }, /two letters each/],
    ['no country', { countries: '' }, /two letters each/],
    ['no service', { service: '—' }, /service needs a name/],
    ['a format that there is not', { formats: 'G Q' }, /P, G, E or parcel/],
    ['a compensation in words', { compensation: 'some' }, /amount in GBP, or left empty/],
    ['a weight in kilograms', { upTo: '0.5' }, /whole number of grams/],
    ['a price of 1e99', { price: '1e99' }, /amount in GBP, such as/],
    ['a price finer than the currency', { price: '8.755' }, /amount in GBP, such as/],
  ])('says of a row with %s what is wrong with it, and of the others nothing', (_, more, sentence) => {
    const [first, wrong, last] = wrongRows([row(), row({ ...more, upTo: more.upTo ?? '900' }), far], 'GBP');
    expect(first).toEqual([]);
    expect(said(wrong)).toMatch(sentence);
    expect(last).toEqual([]);
  });

  test.each<[string, Partial<Row>, RegExp]>([
    [
      'the same zone with other countries',
      { countries: 'FR', upTo: '900' },
      /Near has other countries in row 1/,
    ],
    ['a country in two zones', { zone: 'Nearer', countries: 'BE FR' }, /in another zone in row 1/],
    ['one service tracked and not tracked', { tracked: false, upTo: '900' }, /In row 1 this service/],
    ['the same weight twice', {}, /Row 1 has this service up to this weight/],
  ])('does not take %s', (_, more, sentence) => {
    expect(said(wrongRows([row(), row(more)], 'GBP')[1])).toMatch(sentence);
  });

  test('comes out of a spreadsheet, with headings or without, between tabs, semicolons or commas', () => {
    for (const mark of ['\t', ';', ','])
      expect(
        pasted(['Near', 'FR DE NL', 'Small packet', 'G E', 'yes', '50', '500', '8.75'].join(mark)),
      ).toEqual([row()]);
    const headed =
      'Zone\tCountries\tService\tFormats\tTracked\tCompensation\tUp to\tPrice\r\nNear\tFR\tLetter\tP\tno\t\t100\t1.20\r\n';
    expect(pasted(headed)).toMatchObject([
      { service: 'Letter', tracked: false, compensation: '', upTo: '100' },
    ]);
    expect(pasted('\n\n')).toEqual([]);
  });

  test('whatever is pasted, each row is taken or told what is wrong; what is taken is taken by the record too', () => {
    const cell = fc.oneof(
      fc.constantFrom('Near', 'FR', '*', 'G E', 'yes', '500', '8.75', ''),
      fc.string({ maxLength: 9 }),
    );
    fc.assert(
      fc.property(
        fc.array(fc.array(cell, { minLength: 8, maxLength: 8 }), { minLength: 1, maxLength: 5 }),
        (cells) => {
          const rows = pasted(
            cells.map((line) => line.map((it) => it.replace(/[\r\n\t]/g, ' ')).join('\t')).join('\n'),
          );
          if (rows.length === 0 || wrongRows(rows, 'GBP').some((wrong) => wrong.length > 0)) return;
          const { zones, services } = tariffOf(rows, 'GBP');
          if (services.length === 0) return;
          expect(
            tariffFacts.safeParse({ tariff: 't', name: 'T', from: '2026-01-01', zones, services }).success,
          ).toBe(true);
        },
      ),
      { numRuns: 300 },
    );
  });

  test('written anew begins as it is', () => {
    const rows = [row(), row({ upTo: '1000', price: '11.50' }), far];
    const there = { tariff: 't', name: 'T', from: '2026-01-01', ...tariffOf(rows, 'GBP') } as Tariff;
    expect(tariffOf(rowsOf(there), 'GBP')).toEqual(tariffOf(rows, 'GBP'));
  });
});
