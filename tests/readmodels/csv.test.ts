import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Answer } from '../../server/contract/figures.ts';
import { csvCell, toCsv } from '../../server/readmodels/csv.ts';

const answer = (rows: Answer['rows'], figures: Answer['figures'] = []): Answer => ({
  report: 'all',
  from: null,
  to: null,
  sentence: '',
  rows,
  notes: [],
  figures,
});

describe('an answer as CSV', () => {
  it('has a line of headings and lines that end as RFC 4180 says', () => {
    expect(
      toCsv(
        answer([
          { glaze: 'Marram Green', pieces: 12 },
          { glaze: 'says "wet", or so', rate: 0.5 },
        ]),
      ),
    ).toBe('glaze,pieces,rate\r\nMarram Green,12,\r\n"says ""wet"", or so",,0.5\r\n');
  });

  it('has the columns and rows of its first table', () => {
    const rows = [
      { kind: 'glaze', glaze: 'Marram Green', pieces: 12, story: '/ware' },
      { kind: 'clay', clay: 'Fell White' },
    ];
    const columns = [
      { field: 'pieces', label: 'Pieces', kind: 'count' as const },
      { field: 'glaze', label: 'Glaze', kind: 'text' as const },
    ];
    const table = { figure: 'table' as const, title: 'Glazes', only: 'glaze', columns };
    expect(toCsv(answer(rows, [table]))).toBe('pieces,glaze\r\n12,Marram Green\r\n');
  });

  it.each(['=1+1', '+cmd', '-2+3', '@sum', '\tx', '\rx', '=HYPERLINK("x")'])(
    'does not let a spreadsheet take %j for a formula',
    (text) => {
      expect(parse(csvCell(text))).toEqual([[`'${text}`]]);
    },
  );

  it.each(['-5', '+3', '-0.25', '1e6', -7])('leaves the plain number %j as it is', (number) => {
    expect(csvCell(number)).toBe(String(number));
  });

  it('reads back as what it was, whatever stands in a cell', () => {
    const text = fc.string({ unit: 'binary' }).filter((it) => !/^[=+\-@\t\r]/.test(it));
    fc.assert(
      fc.property(fc.array(fc.record({ a: text, b: text }), { minLength: 1, maxLength: 5 }), (rows) => {
        const read = parse(toCsv(answer(rows)), { columns: true, record_delimiter: '\r\n' });
        expect(read).toEqual(rows);
      }),
    );
  });
});
