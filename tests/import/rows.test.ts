/** Whole rows: from the file's headings and cells to what the row says. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { currencySigns } from '../../server/contract/cells/money.ts';
import { FAULTS, LEAVINGS, REPAIRS, ZONES } from '../../server/contract/trade.ts';
import type { Cells } from '../../server/import/notebook/read.ts';
import { COLUMNS, readNotebook } from '../../server/import/notebook/read.ts';
import type { NotebookRow } from '../../server/import/notebook/row.ts';
import { readRow } from '../../server/import/notebook/row.ts';
import type { Bad } from '../../server/import/records.ts';

const ids = (words: readonly string[]): Map<string, string> => new Map(words.map((word) => [word, word]));
const reader = {
  words: { fault: ids(FAULTS), repair: ids(REPAIRS), zone: ids(ZONES) },
  money: currencySigns('GBP'),
  today: '2026-11-25',
};

async function read(text: string, mapping = {}) {
  const file = await readNotebook(Buffer.from(text), () => mapping);
  const rows: (Cells | Bad)[] = [];
  for await (const row of file.rows) rows.push(row);
  return { ...file, rows };
}

const row = (cells: Cells['cells']): NotebookRow | Bad[] => readRow({ line: 2, cells }, reader);
const bad = (cells: Cells['cells']): Bad[] => {
  const found = row(cells);
  if (!Array.isArray(found)) throw new Error('the row was read');
  return found;
};

describe('headings', () => {
  test('may be written in capitals, with spaces and hyphens, in any order', async () => {
    const { rows, headings } = await read('Second Price,MADE,glaze-firing\n12,2026-05-01,G12\n');
    expect(headings.map(({ column }) => column)).toEqual(['second_price', 'made', 'glaze_firing']);
    expect(rows).toEqual([
      { line: 2, cells: { second_price: '12', made: '2026-05-01', glaze_firing: 'G12' } },
    ]);
  });

  test('that are not known are listed and not read', async () => {
    const { rows, headings } = await read('made,shelf life\n2026-05-01,x\n');
    expect(headings).toEqual([{ heading: 'made', column: 'made' }, { heading: 'shelf life' }]);
    expect(rows).toEqual([{ line: 2, cells: { made: '2026-05-01' } }]);
  });

  test('__proto__ and constructor are headings like any other', async () => {
    const { rows, headings, problems } = await read('made,__proto__,constructor,form\n2026-05-01,a,b,jug\n');
    expect(problems).toEqual([]);
    expect(headings.map(({ heading }) => heading)).toEqual(['made', '__proto__', 'constructor', 'form']);
    expect(rows).toEqual([{ line: 2, cells: { made: '2026-05-01', form: 'jug' } }]);
    expect(({} as Record<string, unknown>).a).toBeUndefined();
  });

  test('of another notebook are mapped to ours', async () => {
    const mapping = JSON.parse('{"Datum":"made","Was":"form","__proto__":"clay"}');
    const { rows } = await read('Datum;Was;__proto__\n2026-05-01;Krug;Fell White\n', mapping);
    expect(rows).toEqual([{ line: 2, cells: { made: '2026-05-01', form: 'Krug', clay: 'Fell White' } }]);
  });

  test('mapped to no column are left out, even one of ours', async () => {
    const { rows } = await read('made,note\n2026-05-01,private\n', { note: '' });
    expect(rows).toEqual([{ line: 2, cells: { made: '2026-05-01' } }]);
  });

  test('mapped to a column that there is not are named', async () => {
    const { problems, rows } = await read('made,Was\n2026-05-01,x\n', { Was: 'shape' });
    expect(problems).toEqual([
      { line: 1, column: 'Was', found: 'shape', expected: `one of the columns ${COLUMNS.join(', ')}` },
    ]);
    expect(rows).toEqual([]);
  });

  test('that stand twice are named, and no row is read', async () => {
    const { problems, rows } = await read('made,glazes,Glazes\n2026-05-01,a,b\n');
    expect(problems).toEqual([
      {
        line: 1,
        column: 'glazes',
        found: 'Glazes',
        expected: 'one heading for glazes: ‘glazes’ stands for it already',
      },
    ]);
    expect(rows).toEqual([]);
  });

  test('without made or piece are named', async () => {
    const { problems } = await read('date,form\n2026-05-01,jug\n');
    expect(problems).toEqual([
      {
        line: 1,
        column: '',
        found: 'date, form',
        expected: 'a heading ‘made’ or ‘piece’, or another one mapped to it',
      },
    ]);
  });

  test('alone are a file without rows', async () => {
    expect((await read('made,form\n')).rows).toEqual([]);
  });
});

describe('a spreadsheet’s export', () => {
  test('with a byte order mark, semicolons, CRLF and empty cells at the end is read', async () => {
    const { rows, encoding } = await read(
      '\ufeffmade;form;price;;\r\n2026-05-01;"Krug; groß";24,50;;\r\n;;;;\r\n',
    );
    expect(encoding).toBe('utf-8');
    expect(rows).toEqual([{ line: 2, cells: { made: '2026-05-01', form: 'Krug; groß', price: '24,50' } }]);
  });
});

describe('a ragged row (RFC 4180, 2.4)', () => {
  test('with too few fields is named, as the last of a file that was cut short', async () => {
    const { rows } = await read('made,form,clay\n2026-05-01,jug,Fell White\n2026-05-02,ju');
    expect(rows[1]).toEqual({
      line: 3,
      column: '',
      found: '2 fields: 2026-05-02 | ju',
      expected: '3 fields, as there are 3 headings',
    });
  });

  test('with too many is named; empty ones at the end are let pass', async () => {
    const { rows } = await read('made,form\n2026-05-01,jug,x\n2026-05-02,jug,,\n');
    expect(rows).toEqual([
      {
        line: 2,
        column: '',
        found: '3 fields: 2026-05-01 | jug | x',
        expected: '2 fields, as there are 2 headings',
      },
      { line: 3, cells: { made: '2026-05-02', form: 'jug' } },
    ]);
  });
});

describe('a row', () => {
  test('with every column says all of it', () => {
    expect(
      row({
        piece: 'HY-12',
        count: '12',
        made: '2026-04-01',
        form: 'beaker',
        clay: 'Fell White stoneware',
        owner: 'student:Ola Nordmann',
        bisque_schedule: 'Overnight Bisque 06',
        bisque_firing: 'B7',
        bisque_fired: '2026-04-10',
        bisque_kiln: 'Big Round',
        glazes: 'inside: Gannet Grey',
        glaze_schedule: 'Glaze 6 Soak',
        glaze_firing: 'G12',
        glaze_fired: '2026-04-20',
        kiln: 'Little Square',
        faults: 'pinholes@inside',
        grade: 'first 9, second 2, waster 1',
        repair: 'grind; refire',
        price: '£24',
        second_price: '12.50',
        left: 'sold 2026-05-01',
        note: 'for the fair\nthin rims',
      }),
    ).toEqual({
      line: 2,
      piece: 'HY-12',
      count: 12,
      made: '2026-04-01',
      form: 'beaker',
      clay: 'Fell White stoneware',
      owner: { kind: 'student', name: 'Ola Nordmann' },
      bisque: { label: 'B7', day: '2026-04-10', kiln: 'Big Round', schedule: 'Overnight Bisque 06' },
      glazes: [{ zone: 'inside', layers: [{ glaze: 'Gannet Grey', coats: 1 }] }],
      glaze: { label: 'G12', day: '2026-04-20', kiln: 'Little Square', schedule: 'Glaze 6 Soak' },
      faults: [{ kind: 'pinholes', zone: 'inside' }],
      grades: { first: 9, second: 2, waster: 1 },
      repairs: ['grind', 'refire'],
      price: 2400,
      secondPrice: 1250,
      left: { how: 'sold', day: '2026-05-01' },
      note: 'for the fair\nthin rims',
    });
  });

  test('with a day only is one piece of the studio’s own', () => {
    expect(row({ made: '2026-04-01' })).toMatchObject({
      count: 1,
      owner: { kind: 'own' },
      made: '2026-04-01',
    });
  });

  test('with neither day nor mark is named', () => {
    expect(bad({ form: 'jug' })).toEqual([
      {
        line: 2,
        column: 'made',
        found: '',
        expected: 'the day it was made, a date like 2026-05-01, or its mark in piece',
      },
    ]);
  });

  test('lists all that does not fit in it, by column', () => {
    const found = bad({
      made: '31/02',
      count: '-3',
      clay: 'x',
      owner: 'friend:Ann',
      price: 'lots',
      faults: 'wobbly',
    });
    expect(found.map(({ column, found: what }) => [column, what])).toEqual([
      ['count', '-3'],
      ['made', '31/02'],
      ['owner', 'friend:Ann'],
      ['faults', 'wobbly'],
      ['price', 'lots'],
    ]);
    expect(found.every(({ line }) => line === 2)).toBe(true);
  });

  test('whose dates are out of order is named', () => {
    expect(bad({ made: '2026-05-02', bisque_fired: '2026-05-01' })).toEqual([
      {
        line: 2,
        column: 'bisque_fired',
        found: '2026-05-01',
        expected: '2026-05-02 or later, as it was made on 2026-05-02',
      },
    ]);
    expect(bad({ made: '2026-05-01', bisque_fired: '2026-05-03', glaze_fired: '2026-05-02' })).toMatchObject([
      { column: 'glaze_fired' },
    ]);
    expect(bad({ made: '2026-05-01', glaze_fired: '2026-05-03', left: 'sold 2026-05-02' })).toMatchObject([
      { column: 'left' },
    ]);
    expect(row({ made: '2026-05-01', bisque_fired: '2026-05-01', glaze_fired: '2026-05-01' })).toMatchObject({
      line: 2,
    });
  });

  test('with a kiln or schedule but neither day nor label of the firing is named', () => {
    expect(bad({ made: '2026-05-01', glaze_schedule: 'Glaze 6 Plain' })).toMatchObject([
      { column: 'glaze_fired', found: 'Glaze 6 Plain' },
    ]);
    expect(bad({ made: '2026-05-01', bisque_kiln: 'Big Round' })).toMatchObject([
      { column: 'bisque_fired', found: 'Big Round' },
    ]);
  });

  test.each([
    [{ grade: 'first' }, 'grade'],
    [{ repair: 'grind' }, 'repair'],
    [{ left: 'sold' }, 'left'],
  ])('that was never fired cannot have %o', (cells, column) => {
    expect(bad({ made: '2026-05-01', ...cells })).toMatchObject([
      { column, expected: expect.stringContaining('fired') },
    ]);
  });

  test('with a mark that is too long is named', () => {
    expect(bad({ piece: 'x'.repeat(25) })).toMatchObject([
      { column: 'piece', expected: 'a mark of at most 24 characters' },
    ]);
  });

  test('with a NUL character is named', () => {
    expect(bad({ made: '2026-05-01', note: 'a\u0000b' })).toEqual([
      { line: 2, column: 'note', found: 'a[U+0000]b', expected: 'text without control characters' },
    ]);
  });
});

/* A row is printed to a line of the file, read again, and is the same. */
const text = fc.string({ unit: 'grapheme', minLength: 1, maxLength: 20 }).map(
  (said) =>
    `k${said
      .replace(/[\p{Cc};:>@\u2028\u2029\ufeff]/gu, '')
      .normalize('NFC')
      .replace(/\s+/g, ' ')}k`,
);
const day = (from: string, to: string) =>
  fc
    .date({ min: new Date(from), max: new Date(to), noInvalidDate: true })
    .map((date) => date.toISOString().slice(0, 10));
const firing = (from: string, to: string) =>
  fc.record({
    label: fc.option(text, { nil: undefined }),
    day: day(from, to),
    kiln: fc.option(text, { nil: undefined }),
    schedule: fc.option(text, { nil: undefined }),
  });

const anyRow = fc.integer({ min: 1, max: 40 }).chain((count) =>
  fc.record({
    piece: fc.option(
      text.filter(({ length }) => length <= 24),
      { nil: undefined },
    ),
    count: fc.constant(count),
    made: day('2025-01-01', '2025-03-31'),
    form: fc.option(text, { nil: undefined }),
    clay: fc.option(text, { nil: undefined }),
    owner: fc.oneof(
      fc.constant({ kind: 'own' as const }),
      fc.record({ kind: fc.constantFrom('commission', 'student', 'hire'), name: text }),
    ),
    bisque: firing('2025-04-01', '2025-06-30'),
    glazes: fc.array(
      fc.record({
        zone: fc.constantFrom(undefined, ...ZONES),
        layers: fc.array(fc.record({ glaze: text, coats: fc.integer({ min: 1, max: 20 }) }), {
          minLength: 1,
          maxLength: 3,
        }),
      }),
      { maxLength: 3 },
    ),
    glaze: firing('2025-07-01', '2025-09-30'),
    faults: fc.array(
      fc.record({
        kind: fc.constantFrom(...FAULTS),
        zone: fc.constantFrom(undefined, ...ZONES),
        count: fc.option(fc.integer({ min: 1, max: count }), { nil: undefined }),
      }),
      { maxLength: 3 },
    ),
    grades: fc.option(
      fc
        .integer({ min: 0, max: count })
        .chain((first) =>
          fc
            .integer({ min: 0, max: count - first })
            .map((second) => ({ first, second, waster: count - first - second })),
        ),
      { nil: undefined },
    ),
    repairs: fc.array(fc.constantFrom(...REPAIRS), { maxLength: 2 }),
    price: fc.option(fc.nat({ max: 1e7 }), { nil: undefined }),
    secondPrice: fc.option(fc.nat({ max: 1e7 }), { nil: undefined }),
    left: fc.option(
      fc.record({
        how: fc.constantFrom(...LEAVINGS),
        day: fc.option(day('2025-10-01', '2026-10-01'), { nil: undefined }),
      }),
      { nil: undefined },
    ),
    note: fc.option(
      fc.array(text, { minLength: 1, maxLength: 3 }).map((parts) => parts.join('\n')),
      { nil: undefined },
    ),
  }),
);

type Printed = typeof anyRow extends fc.Arbitrary<infer Row> ? Row : never;

const times = (n: number | undefined): string => (n === undefined ? '' : ` x${n}`);

function cellsOf(said: Printed): Record<string, string> {
  const { owner, glazes, faults, grades, left } = said;
  const money = (minor: number | undefined) => (minor === undefined ? '' : (minor / 100).toFixed(2));
  return {
    piece: said.piece ?? '',
    count: String(said.count),
    made: said.made,
    form: said.form ?? '',
    clay: said.clay ?? '',
    owner: owner.kind === 'own' ? '' : `${owner.kind}:${(owner as { name: string }).name}`,
    bisque_schedule: said.bisque.schedule ?? '',
    bisque_firing: said.bisque.label ?? '',
    bisque_fired: said.bisque.day,
    bisque_kiln: said.bisque.kiln ?? '',
    glazes: glazes
      .map(
        ({ zone, layers }) =>
          (zone === undefined ? '' : `${zone}: `) +
          layers.map(({ glaze, coats }) => `${glaze}${times(coats)}`).join(' > '),
      )
      .join('; '),
    glaze_schedule: said.glaze.schedule ?? '',
    glaze_firing: said.glaze.label ?? '',
    glaze_fired: said.glaze.day,
    kiln: said.glaze.kiln ?? '',
    faults: faults
      .map(({ kind, zone, count }) => kind + (zone === undefined ? '' : `@${zone}`) + times(count))
      .join('; '),
    grade:
      grades === undefined ? '' : `first ${grades.first}, second ${grades.second}, waster ${grades.waster}`,
    repair: said.repairs.join('; '),
    price: money(said.price),
    second_price: money(said.secondPrice),
    left: left === undefined ? '' : `${left.how}${left.day === undefined ? '' : ` ${left.day}`}`,
    note: said.note ?? '',
  };
}

const quoted = (cell: string, delimiter: string): string =>
  /["\r\n]/.test(cell) || cell.includes(delimiter) ? `"${cell.replaceAll('"', '""')}"` : cell;

describe('any row', () => {
  test('printed as a line of a file and read again is the same, whatever the delimiter and line ends', async () => {
    const files = fc.record({
      rows: fc.array(anyRow, { minLength: 1, maxLength: 8 }),
      delimiter: fc.constantFrom(',', ';', '\t'),
      lineEnd: fc.constantFrom('\n', '\r\n', '\r'),
      mark: fc.constantFrom('', '\ufeff'),
    });
    await fc.assert(
      fc.asyncProperty(files, async ({ rows, delimiter, lineEnd, mark }) => {
        const printed = rows.map((said) => {
          const cells = cellsOf(said);
          return COLUMNS.map((column) => quoted(cells[column]!.replaceAll('\n', lineEnd), delimiter)).join(
            delimiter,
          );
        });
        const file = await read(mark + [COLUMNS.join(delimiter), ...printed].join(lineEnd));
        const again = file.rows.map((cells) => readRow(cells as Cells, reader));
        expect(again.map((one) => ({ ...one, line: 0 }))).toEqual(rows.map((one) => ({ ...one, line: 0 })));
      }),
      { numRuns: 100, seed: 20260501 },
    );
  });
});
