import { render } from 'preact-render-to-string';
import { describe, expect, test } from 'vitest';
import { cellText } from '../../web/figures/cell.tsx';
import { rowsFor } from '../../web/figures/figure.tsx';
import { dayNumber, extent, linear, linePath, partSpans, ticks } from '../../web/figures/scale.ts';
import { Table } from '../../web/figures/table.tsx';
import { Tally } from '../../web/figures/tally.tsx';

describe('an axis', () => {
  test('is marked in round steps that reach both ends', () => {
    expect(ticks(0, 0.43)).toEqual([0, 0.2, 0.4, 0.6]);
    expect(ticks(0, 12)).toEqual([0, 5, 10, 15]);
    expect(ticks(0, 100)).toEqual([0, 50, 100]);
    expect(ticks(3, 3)).toEqual([3]);
  });

  test('never ends below the largest value, whatever it is', () => {
    for (const high of [0.001, 0.07, 0.3, 1, 7, 23, 99, 101, 1234, 9_999_999])
      for (const about of [3, 4, 5, 8]) {
        const marks = ticks(0, high, about);
        expect(marks[0]).toBe(0);
        expect(marks.at(-1)).toBeGreaterThanOrEqual(high * 0.999_999);
        expect(marks.length).toBeLessThanOrEqual(about + 2);
      }
  });

  test('of counts and rates starts at nothing; of other numbers about the values', () => {
    expect(extent([3, 9], true)).toEqual({ low: 0, high: 9 });
    expect(extent([1210, 1222], false)).toEqual({ low: 1210, high: 1222 });
    expect(extent([], true)).toEqual({ low: 0, high: 1 });
    expect(extent([Number.NaN, 4], true)).toEqual({ low: 0, high: 4 });
  });

  test('puts values where they belong on the paper', () => {
    const place = linear(0, 10, 56, 256);
    expect([place(0), place(5), place(10)]).toEqual([56, 156, 256]);
  });
});

describe('a line', () => {
  test('has a gap where there is no value', () => {
    expect(linePath([[0, 1], [2, 3], undefined, [6, 7]])).toBe('M0.0 1.0L2.0 3.0M6.0 7.0');
  });

  test('goes by the calendar: a year apart is 365 days', () => {
    expect(dayNumber('2026-05-01') - dayNumber('2025-05-01')).toBe(365);
  });
});

describe('a bar', () => {
  test('is as long as its row is large, and its parts stand one after another', () => {
    expect(partSpans([9, 2, 1], 24)).toEqual([
      { from: 0, to: 9 / 24 },
      { from: 9 / 24, to: 11 / 24 },
      { from: 11 / 24, to: 12 / 24 },
    ]);
    expect(partSpans([0, 0], 0)).toEqual([
      { from: 0, to: 0 },
      { from: 0, to: 0 },
    ]);
  });
});

describe('a value', () => {
  test('reads by its kind', () => {
    expect(cellText('count', 1234)).toBe('1,234');
    expect(cellText('rate', 0.0416)).toBe('4.2%');
    expect(cellText('rate', 0.134)).toBe('13%');
    expect(cellText('money', 69_500, { currency: 'GBP' })).toBe('£695.00');
    expect(cellText('money', 695, { currency: 'JPY' })).toBe('JP¥695');
    expect(cellText('day', '2026-05-01')).toBe('1 May 2026');
    expect(cellText('text', '2026-05')).toBe('May 2026');
    expect(cellText('code', 'stilt-marks')).toBe('stilt marks');
    expect(cellText('mark', 'K7-RTX')).toBe('K7-RTX');
  });

  test('that is missing is a dash, and nothing is not missing', () => {
    expect(cellText('count', null)).toBe('–');
    expect(cellText('rate', undefined)).toBe('–');
    expect(cellText('count', 0)).toBe('0');
  });

  test('of money without a currency is in the studio’s own', () => {
    expect(cellText('money', 100, { currency: '' })).toBe('£1.00');
  });
});

describe('a figure', () => {
  const rows = [
    { kind: 'glaze', label: 'Marram Green', firsts: 9, seconds: 2, behind: '/review/x?grade=first' },
    { kind: 'clay', label: 'Fell White', firsts: 1, seconds: 0, behind: 'https://elsewhere.example/' },
  ];

  test('draws only the rows of its kind', () => {
    expect(rowsFor({ only: 'clay' }, rows)).toEqual([rows[1]]);
    expect(rowsFor({}, rows)).toBe(rows);
  });

  test('leads from a number to the pieces behind it, and never off the studio’s own pages', () => {
    const html = render(
      <Table
        title="By glaze"
        columns={[
          { field: 'label', label: 'Glaze', kind: 'text' },
          { field: 'firsts', label: 'Firsts', kind: 'count', behind: 'behind' },
        ]}
        rows={rows}
      />,
    );
    expect(html).toContain('href="/review/x?grade=first"');
    expect(html).toContain('aria-label="9: Marram Green, Firsts: the pieces behind it"');
    expect(html).not.toContain('elsewhere');
    expect(html).toContain('<th scope="row">Marram Green</th>');
  });

  test('shows the parts of a whole as bars that tell apart without colour, with the numbers beside them', () => {
    const html = render(
      <Tally
        title="By glaze"
        label="label"
        parts={[
          { field: 'firsts', label: 'Firsts', kind: 'count' },
          { field: 'seconds', label: 'Seconds', kind: 'count' },
        ]}
        rows={rows}
      />,
    );
    expect(html).toMatch(/class="ink-open"[^>]*x="0.00%"[^>]*width="80.18%"/);
    expect(html).toMatch(/class="ink-hatch"[^>]*x="80.18%"[^>]*width="17.82%"/);
    expect(html).toContain('data-label="Seconds"');
  });
});
