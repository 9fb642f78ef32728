/** The papers of the workshop, as MuPDF reads them. */
import decodeQR from 'qr/decode.js';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { done, type Happening } from '../support/given.ts';
import { inked, type LookedAt, lookAt } from '../support/looked-at.ts';
import { type StudioHost, studioHost } from '../support/studio-host.ts';
import { drawn, fired, glaze, materials, pounds } from '../support/yard.ts';

const pieceNo = (n: number): string => `01980000-0000-7000-8000-${String(n).padStart(12, '0')}`;
const [JUG, BOWLS, LAMP, LANTERNS, LONG, NOBODY] = [1, 2, 3, 4, 5, 6].map(pieceNo) as [
  string,
  string,
  string,
  string,
  string,
  string,
];
const begun = (
  piece: string,
  mark: string,
  count: number,
  form: string,
  owner: object = { kind: 'own' },
): Happening => done('2026-02-01', 'piece.begin', { piece, mark, count, form, clay: 'fell-white', owner });
const ALL = [JUG, BOWLS, LAMP, LANTERNS];

const scene: readonly Happening[] = [
  ...materials,
  done('2026-01-01', 'person.add', { person: 'mira', name: 'Мира Ткач' }),
  done('2026-01-01', 'person.add', { person: 'noor', name: 'نور الدباغ' }),
  begun(JUG, 'ACDEE', 1, 'faceted jug'),
  begun(BOWLS, 'HJKM3', 6, 'bowl'),
  begun(LAMP, 'PQRT4', 1, 'altar lamp', { kind: 'commission', person: 'mira' }),
  begun(LANTERNS, 'VWXY7', 3, 'house lantern', { kind: 'student', person: 'noor' }),
  ...drawn('Bisque-12', 'bisque', ALL, '2026-02-10'),
  done('2026-02-11', 'fault.find', { piece: LAMP, kind: 'crack', zone: 'rim' }),
  ...ALL.map((piece) => glaze(piece, '2026-02-12')),
  glaze(JUG, '2026-02-12', {
    zone: 'outside',
    layers: [
      { glaze: 'cuttle-white', coats: 1 },
      { glaze: 'marram-green', coats: 3 },
    ],
  }),
  done('2026-02-14', 'firing.pack', {
    firing: 'G31',
    label: 'Glaze 31',
    kiln: 'big-round',
    schedule: 'glaze-6-plain',
    role: 'glaze',
    places: [
      { piece: LANTERNS, shelf: 3, position: 'back' },
      { piece: JUG, shelf: 1, position: 'left', furniture: ['catcher'] },
      { piece: BOWLS, shelf: 2, furniture: ['wash'] },
      { piece: LAMP, shelf: 1 },
    ],
  }),
];

let studio: StudioHost;
const print = async (paper: string, params: Record<string, string> = {}): Promise<LookedAt> =>
  lookAt((await studio.host.paper('studio', paper, params)).pdf);
const words = (pdf: LookedAt): string =>
  Array.from({ length: pdf.pages }, (_, page) => pdf.text(page))
    .join('\n')
    .replace(/\s+/g, ' ');

beforeAll(async () => {
  studio = await studioHost();
  await studio.tell(...scene);
});
afterAll(() => studio.close());

describe('of a kiln that is packed', () => {
  test('the load sheet goes from the top shelf down, with what stands on what, and whose it is', async () => {
    const text = words(await print('load-sheet', { firing: 'G31' }));
    const at = [
      'Shelf 1, the top one: 2 pieces',
      'ACDEE',
      'PQRT4',
      'Shelf 2: 6 pieces',
      'HJKM3',
      'Shelf 3: 3 pieces',
      'VWXY7',
    ].map((it) => text.indexOf(it));
    expect(at).not.toContain(-1);
    expect(at).toEqual(at.toSorted((a, b) => a - b));
    for (const said of [
      'Big Round',
      'Glaze 6 Plain',
      'catcher',
      '6 × bowl',
      'Мира Ткач',
      'commission',
      'outside: Marram Green × 3 over Cuttle White',
    ])
      expect(text).toContain(said);
    expect(text).toContain('damp ware bursts');
  });

  test('the opening sheet tells what happened to each piece before, and has room for what is seen', async () => {
    const text = words(await print('opening-sheet', { firing: 'G31', paper: 'Letter' }));
    expect(text).toContain('Bisque-12: crack on the rim.');
    expect(text).toContain('Bisque-12: nothing seen.');
    for (const grade of ['1st', '2nd', 'waster'])
      expect(text.split(grade).length - 1).toBeGreaterThanOrEqual(4);
    expect(text).toContain('open it cold');
    expect(text).not.toMatch(/food/i);
  });

  test('a firing that is not there, or not yet at that time, is refused', async () => {
    await expect(print('load-sheet', { firing: 'none' })).rejects.toThrow('There is no such firing');
    await expect(print('opening-sheet', { firing: 'G31', 'as-at': '2026-02-01' })).rejects.toThrow(
      'no such firing at that time',
    );
  });
});

describe('labels', () => {
  test('stand in a grid of true millimetres, with the mark, the piece and its owner', async () => {
    const pdf = await print('labels', { firing: 'G31' });
    const text = words(pdf);
    for (const said of ['ACDEE', '6 × bowl', 'Marram Green', 'Мира Ткач', 'begun 1 February 2026'])
      expect(text.replaceAll(' ', '')).toContain(said.replaceAll(' ', ''));
    // Three across from 7 mm, each (210 - 14 - 5) / 3 wide; the code begins 4 mm in.
    const code = inked(pdf.raster(0, 300, { x: 7, y: 12, width: 30, height: 34 }))!;
    expect(Math.abs(code.left - 4)).toBeLessThan(0.2);
    const second = inked(pdf.raster(0, 300, { x: 7 + 191 / 3 + 2.5, y: 12, width: 30, height: 34 }))!;
    expect(Math.abs(second.left - 4)).toBeLessThan(0.2);
  });

  test('carry a code that a reader finds the mark in', async () => {
    const pdf = await print('labels', { pieces: JUG });
    const { width, height, pixels } = pdf.raster(0, 200, { x: 7, y: 12, width: 33, height: 34 });
    const data = new Uint8Array(width * height * 4).fill(255);
    for (const [at, grey] of pixels.entries()) data.fill(grey, at * 4, at * 4 + 3);
    expect(decodeQR({ width, height, data })).toBe('ACDEE');
  });

  test('leave out the places of a sheet that are used up', async () => {
    const pdf = await print('labels', { pieces: `${JUG},${BOWLS}`, columns: '2', rows: '5', skip: '9' });
    expect(pdf.pages).toBe(2);
    expect(words(pdf).replaceAll(' ', '')).toMatch(/ACDEE.*HJKM3/);
    expect(pdf.text(0).replaceAll(' ', '')).not.toContain('HJKM3');
  });

  test.each([
    [{}, /Say which pieces/],
    [{ pieces: NOBODY }, /no such piece.*0006/],
    [{ stage: 'mending' }, /Nothing that is here fits/],
    [{ pieces: JUG, columns: '12' }, /Each place would be .* at least 25 × 12 mm/],
    [{ pieces: JUG, skip: '24' }, /A sheet has 24 places/],
    [{ pieces: JUG, rows: 'many' }, /rows: .*“many” was given/],
  ] as const)('asked for with %o are refused with a sentence', async (params, sentence) => {
    await expect(print('labels', params as Record<string, string>)).rejects.toThrow(sentence);
  });

  test('have nothing outside their own place, however long the words', async () => {
    await studio.tell(
      done('2026-02-01', 'piece.begin', {
        piece: LONG,
        mark: 'TWXT6',
        count: 48,
        form: 'tile with a long description for the tiled hearth of the old dairy, corner pieces and slips, left hand',
        clay: 'fell-white',
        owner: { kind: 'commission', person: 'mira' },
      }),
    );
    const pdf = await print('labels', { pieces: LONG, columns: '4', rows: '12', top: '10', left: '8' });
    const place = { width: (210 - 16 - 7.5) / 4, height: (297 - 20) / 12 };
    const box = inked(pdf.raster(0, 200))!;
    expect(box.left).toBeGreaterThan(8);
    expect(box.right).toBeLessThan(8 + place.width + 0.1);
    expect(box.bottom).toBeLessThan(10 + place.height + 0.1);
  });
});

describe('once the kiln is drawn and graded', () => {
  beforeAll(async () => {
    await studio.tell(
      done('2026-02-14', 'firing.light', { firing: 'G31' }),
      done('2026-02-15', 'firing.end', { firing: 'G31', top: 1222 }),
      done('2026-02-16', 'firing.draw', { firing: 'G31' }),
      done('2026-02-16', 'piece.grade', { piece: JUG, second: 1 }),
      done('2026-02-16', 'piece.grade', { piece: BOWLS, first: 6 }),
      done('2026-02-16', 'piece.grade', { piece: LAMP, first: 1 }),
      done('2026-02-16', 'piece.grade', { piece: LANTERNS, first: 2, waster: 1 }),
      done('2026-02-17', 'piece.price', { piece: JUG, price: pounds(6400), secondPrice: pounds(4200) }),
      done('2026-02-17', 'piece.price', { piece: BOWLS, price: pounds(1850) }),
    );
  });

  test('everybody whose ware waits gets a slip in their own script, and the studio’s own ware none', async () => {
    const text = words(await print('collection-slips', { firing: 'G31' }));
    for (const said of [
      'Мира Ткач',
      '1 piece to collect',
      'PQRT4',
      'نور',
      '3 pieces to collect',
      'waster',
      'Collected on',
    ])
      expect(text).toContain(said);
    for (const own of ['ACDEE', 'HJKM3']) expect(text).not.toContain(own);
    const one = words(await print('collection-slips', { person: 'mira', paper: 'Letter' }));
    expect(one).not.toContain('VWXY7');
  });

  test('what was collected is on no slip any more', async () => {
    await studio.tell(done('2026-02-18', 'piece.leave', { piece: LAMP, how: 'collected' }));
    await expect(print('collection-slips', { person: 'mira' })).rejects.toThrow(/waits to be collected/);
    expect(words(await print('collection-slips', { person: 'mira', 'as-at': '2026-02-17' }))).toContain(
      'PQRT4',
    );
  });

  test('price cards tell the price of a first, and of a second its own', async () => {
    const text = words(await print('price-cards'));
    for (const said of ['Faceted jug', '£42.00', 'second', 'Bowl', '£18.50', 'Marram Green'])
      expect(text).toContain(said);
    expect(text).not.toContain('£64.00');
    expect(text).not.toContain('Altar lamp');
    expect(words(await print('price-cards', { pieces: BOWLS, each: 'yes' })).split('£18.50')).toHaveLength(7);
  });

  test('ware without a price has no card', async () => {
    await expect(print('price-cards', { pieces: LANTERNS })).rejects.toThrow(
      /not to be printed here: .*0004/,
    );
  });
});

test('a slip that is too long for all of a person’s ware goes on on the next', async () => {
  const many = Array.from({ length: 20 }, (_, n) => pieceNo(100 + n));
  const marks = (n: number) => `${'ACDEFHJKMNPQRTVWXY34'[n]}AAA3`;
  await studio.tell(
    ...many.map((piece, n) =>
      begun(piece, marks(n), 1, 'house number', { kind: 'commission', person: 'mira' }),
    ),
    ...fired('B13', 'bisque', many, '2026-03-01'),
    done('2026-03-02', 'firing.draw', { firing: 'B13' }),
    ...many.map((piece) => done('2026-03-03', 'piece.grade', { piece, first: 1 })),
  );
  const text = words(await print('collection-slips', { person: 'mira' }));
  expect(text).toContain('20 pieces to collect');
  expect(text).toContain('slip 1 of 2');
  for (let n = 0; n < 20; n++) expect(text).toContain(marks(n));
});
