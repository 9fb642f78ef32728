import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { addressLines } from '../../../plugins/shop-orders/post/address.ts';
import { offersFor } from '../../../plugins/shop-orders/post/cheapest.ts';
import { formatOf } from '../../../plugins/shop-orders/post/formats.ts';
import { checkDigit, readItemNumber } from '../../../plugins/shop-orders/post/s10.ts';
import { tariffFacts } from '../../../plugins/shop-orders/post/tariff-facts.ts';
import { pounds } from '../../support/yard.ts';

describe('an item number (UPU S10)', () => {
  // 47312482 → 9: the example of the standard, as repeated in encyclopaedias; the others by its rule.
  test.each([
    ['47312482', 9],
    ['11112222', 9],
    ['87654321', 6],
    ['00000001', 4],
    ['00000000', 5],
    ['00000015', 5],
    ['00000008', 0],
    ['00000012', 0],
  ])('the check digit of %s is %i', (serial, digit) => {
    expect(checkDigit(serial)).toBe(digit);
  });

  // The numbers are in the test data of an open collection of number formats (tracking_number_data, s10).
  test.each(['RB123456785GB', 'RB123456785US', 'RB 123 456 785 GB', 'rb123456785gb'])(
    '%s is right',
    (text) => {
      expect(readItemNumber(text)).toMatchObject({ s10: true });
    },
  );

  test.each([
    ['RB123456786US', /6 is there and 5 would be right/],
    ['RB123456785XX', /ends in XX, which is no country/],
    ['RB12345678OGB', /the letter O at place 11, where the digit 0 is probably meant/],
    ['RB1234567S5GB', /the letter S .* digit 5 is probably meant/],
    ['RB12345678GB', /has 8 digits; an item number has nine/],
    ['RB123456758GB', /two beside each other are swapped \(.*RB123456785GB.* would fit\)/],
    ['☂', /no item number/],
  ])('%s is wrong, and it says how', (text, how) => {
    expect(readItemNumber(text)).toMatchObject({ wrong: expect.stringMatching(how) });
  });

  test('another carrier’s number is taken as it is', () => {
    expect(readItemNumber('1z-999-aa1')).toEqual({ number: '1Z-999-AA1', s10: false });
  });

  const serial = fc.stringMatching(/^[0-9]{8}$/);
  const numbered = serial.map((it) => `RB${it}${checkDigit(it)}GB`);

  test('one wrong digit is always found, but where two remainders have the same check digit', () => {
    fc.assert(
      fc.property(numbered, fc.nat(7), fc.integer({ min: 1, max: 9 }), (number, at, by) => {
        const wrong = [...number];
        wrong[at + 2] = String((Number(wrong[at + 2]) + by) % 10);
        const told = readItemNumber(wrong.join(''));
        // 0 stands for a remainder of 1, 5 for a remainder of 0 and of 6: only those two can be mistaken.
        if (!('wrong' in told)) expect(number[10]).toBe('5');
      }),
      { numRuns: 300 },
    );
  });
});

describe('the formats of the letter post (limits from memory)', () => {
  const flat = (length: number, width: number, thickness: number) => ({ length, width, thickness });
  test.each([
    [100, flat(245, 165, 5), 'P'],
    [101, flat(245, 165, 5), 'G'],
    [100, flat(246, 165, 5), 'G'],
    [100, flat(165, 245, 5), 'P'],
    [500, flat(381, 305, 20), 'G'],
    [500, flat(381, 305, 20.5), 'E'],
    [2000, flat(600, 200, 100), 'E'],
    [2001, flat(300, 200, 100), undefined],
    [1000, flat(600, 200, 101), undefined],
    [1000, flat(601, 100, 50), undefined],
    [20, flat(130, 90, 2), undefined],
  ])('%i g of %o is %s', (weight, size, format) => {
    expect(formatOf(weight, size).format).toBe(format);
  });

  test('and it says why it is in no smaller one', () => {
    expect(formatOf(120, flat(245, 165, 6)).why).toEqual([
      'P: it weighs 120 g, at most 100 g',
      'P: it is 6 mm thick, at most 5 mm',
    ]);
  });
});

describe('the cheapest service', () => {
  const service = (id: string, more: object) => ({
    id,
    name: id,
    zone: 'world',
    formats: ['P', 'G', 'E'],
    tracked: false,
    steps: [
      { upTo: 100, price: pounds(300) },
      { upTo: 500, price: pounds(700) },
    ],
    ...more,
  });
  const table = (from: string, ...services: object[]) =>
    tariffFacts.parse({
      tariff: 'yard-post',
      name: 'Yard Post',
      from,
      zones: [
        { id: 'home', name: 'Home', countries: ['GB'] },
        { id: 'world', name: 'World', countries: 'rest' },
      ],
      services,
    });
  const tariff = table(
    '2026-01-01',
    service('letter', {}),
    service('tracked', { tracked: true, steps: [{ upTo: 2000, price: pounds(900) }] }),
    service('insured', {
      tracked: true,
      compensation: pounds(5000),
      steps: [{ upTo: 2000, price: pounds(1400) }],
    }),
    service('boxes', { formats: ['parcel'] }),
  );
  const post = { country: 'JP', weight: 240, format: 'G' as const, wants: {}, day: '2026-05-01' };

  test('meets what the order needs, and the others say why they fell out', () => {
    const plain = offersFor([[tariff]], post);
    expect(plain.fit.map((one) => [one.service, one.price.amount])).toEqual([
      ['letter', 700],
      ['tracked', 900],
      ['insured', 1400],
    ]);
    const careful = offersFor([[tariff]], { ...post, wants: { tracked: true, compensation: pounds(2000) } });
    expect(careful.fit.map((one) => one.service)).toEqual(['insured']);
    expect(careful.out).toEqual([
      { name: 'letter', why: 'is not tracked' },
      { name: 'tracked', why: 'pays nothing for a loss' },
      { name: 'boxes', why: 'takes parcel, and this is format G' },
    ]);
  });

  test('by the table that holds on the day', () => {
    const dearer = table('2026-06-01', service('letter', { steps: [{ upTo: 500, price: pounds(800) }] }));
    expect(offersFor([[tariff, dearer]], post).fit[0]!.price.amount).toBe(700);
    expect(offersFor([[tariff, dearer]], { ...post, day: '2026-06-01' }).fit[0]!.price.amount).toBe(800);
    expect(offersFor([[dearer]], post).out).toEqual([
      { name: 'Yard Post', why: 'holds from 2026-06-01 only' },
    ]);
  });

  test('and a table with weights that fall, or a zone that is not there, is refused', () => {
    expect(() => table('2026-01-01', service('x', { zone: 'moon' }))).toThrow(/one of the table’s zones/);
    const steps = [
      { upTo: 500, price: pounds(1) },
      { upTo: 100, price: pounds(2) },
    ];
    expect(() => table('2026-01-01', service('x', { steps }))).toThrow(/rise from step to step/);
  });
});

describe('an address stands as its destination reads it', () => {
  const to = (country: string, lines: string[], postcode: string, name = 'Isolde Farthingdown') =>
    addressLines({ name, lines, postcode, country }, 'GB');

  test.each([
    ['GB', ['1 Nowhere Lane', 'Farthing'], 'ZZ1 1ZZ', ['1 Nowhere Lane', 'Farthing', 'ZZ1 1ZZ']],
    ['FR', ['5 rue de Nulle Part', 'Néant'], '00000', ['5 rue de Nulle Part', '00000 Néant', 'FRANCE']],
    [
      'US',
      ['12 Nowhere St', 'Springless, ZZ'],
      '00000',
      ['12 Nowhere St', 'Springless, ZZ 00000', 'UNITED STATES'],
    ],
    ['HU', ['Sehol u. 1', 'Nincs'], '0000', ['Nincs', 'Sehol u. 1', '0000', 'HUNGARY']],
    [
      'JP',
      ['1-2-3 Kaku', 'Nowhere-ku', 'Tokyo'],
      '000-0000',
      ['1-2-3 Kaku', 'Nowhere-ku', 'Tokyo', '000-0000', 'JAPAN'],
    ],
  ])('%s', (country, lines, postcode, expected) => {
    expect(to(country, lines, postcode)).toEqual(['Isolde Farthingdown', ...expected]);
  });

  // The order of lines is that of the address metadata of an open library (libaddressinput), by country.
  test.each<[string, string, string, string[], string, string[]]>([
    [
      'Arabic',
      'SA',
      'ليان الفخّاري',
      ['شارع لا مكان ١', 'لا مكان'],
      '00000',
      ['ليان الفخّاري', 'شارع لا مكان ١', 'لا مكان 00000', 'SAUDI ARABIA'],
    ],
    [
      'Hebrew',
      'IL',
      'יעל הקדרית',
      ['רחוב שומקום 0', 'איןעיר'],
      '0000000',
      ['יעל הקדרית', 'רחוב שומקום 0', 'איןעיר 0000000', 'ISRAEL'],
    ],
    [
      'Devanagari',
      'IN',
      'मीरा कुम्हार',
      ['० कहीं नहीं मार्ग', 'अनगर'],
      '000000',
      ['मीरा कुम्हार', '० कहीं नहीं मार्ग', 'अनगर 000000', 'INDIA'],
    ],
    [
      'Thai',
      'TH',
      'ดินเผา ไม่มีจริง',
      ['0 ถนนไร้ที่', 'เมืองว่าง'],
      '00000',
      ['ดินเผา ไม่มีจริง', '0 ถนนไร้ที่', 'เมืองว่าง', '00000', 'THAILAND'],
    ],
    [
      'Georgian',
      'GE',
      'ნინო მეთუნე',
      ['არსადის ქუჩა 0', 'არსადი'],
      '0000',
      ['ნინო მეთუნე', 'არსადის ქუჩა 0', '0000 არსადი', 'GEORGIA'],
    ],
    [
      'Korean',
      'KR',
      '김도예',
      ['없는시 없는구', '0번길 0'],
      '00000',
      ['없는시 없는구', '0번길 0', '김도예', '00000', 'SOUTH KOREA'],
    ],
    [
      'with an emoji',
      'ES',
      'Odalys Quimera 🎉',
      ['Calle Ninguna 0', 'Ningunaparte'],
      '00000',
      ['Odalys Quimera 🎉', 'Calle Ninguna 0', '00000 Ningunaparte', 'SPAIN'],
    ],
  ])('in its own script: %s', (_, country, name, lines, postcode, expected) => {
    expect(to(country, lines, postcode, name)).toEqual(expected);
  });

  test('from the largest to the smallest where it is written so', () => {
    expect(to('JP', ['東京都架空区', '1-2-3'], '000-0000', '窯田 しのぶ')).toEqual([
      '〒000-0000',
      '東京都架空区',
      '1-2-3',
      '窯田 しのぶ',
      'JAPAN',
    ]);
  });

  test('without a second postcode where it is in the lines already, and without losing a line', () => {
    expect(to('DE', ['Nirgendweg 1', '00000 Nirgendheim'], '00000')).toEqual([
      'Isolde Farthingdown',
      'Nirgendweg 1',
      '00000 Nirgendheim',
      'GERMANY',
    ]);
    const lines = fc.array(fc.stringMatching(/^[A-Za-zÀ-ÿ]{3,12}$/), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(
        fc.constantFrom('GB', 'JP', 'HU', 'KR', 'IS', 'BR', 'CN', 'XK', 'HK', 'NZ'),
        lines,
        (country, some) => {
          const label = to(country, some, '00000').join('\n');
          for (const line of some) expect(label).toContain(line);
        },
      ),
      { numRuns: 200 },
    );
  });
});
