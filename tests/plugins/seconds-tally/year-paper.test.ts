/** The year and a fault's guide as PDFs, read by MuPDF, which shares no code with what draws them. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Answer } from '../../../server/contract/figures.ts';
import { PAPERS } from '../../../server/contract/paper.ts';
import { done } from '../../support/given.ts';
import { inked, lookAt } from '../../support/looked-at.ts';
import { type StudioHost, studioHost } from '../../support/studio-host.ts';
import { fire, storesOn } from '../defect-rates/load.ts';

let studio: StudioHost;
let year: Answer;

const firings = (of: number, seconds: number) =>
  [1, 2, 3, 4, 5, 6].flatMap((month) =>
    fire({
      firing: `G${of}-${month}`,
      day: `${of}-0${month}-02`,
      lots: [
        {
          count: 15,
          seconds,
          glazes: { outside: 'quicksilver-run' },
          fault: 'runs',
          prices: [2400, 1200],
        },
        { count: 30, seconds: 1, glazes: { inside: 'сажа-ночи' }, fault: 'specks', prices: [1000, 500] },
      ],
    }),
  );

beforeAll(async () => {
  studio = await studioHost();
  await studio.tell(
    ...storesOn('2024-01-01'),
    done('2024-01-01', 'studio.set', {
      studio: 'Hollin Yard Pottery',
      zone: 'Europe/London',
      currency: 'GBP',
      yearStart: '01-01',
    }),
    done('2024-01-01', 'glaze.add', { name: 'Сажа ночи' }),
    ...firings(2025, 2),
    ...firings(2026, 8),
  );
  year = await studio.host.report('seconds-tally', 'year', {});
}, 60_000);
afterAll(() => studio.close());

const plain = (text: string): string => text.replace(/\s+/g, ' ');

describe.each(['A4', 'Letter'] as const)('the year on %s', (paper) => {
  const printed = async () => {
    const { name, pdf } = await studio.host.paper('seconds-tally', 'year', { paper });
    expect(name).toBe('the-year-2026.pdf');
    const seen = lookAt(pdf);
    return { seen, text: plain(Array.from({ length: seen.pages }, (_, at) => seen.text(at)).join(' ')) };
  };

  test('says what the report says: counts, money, glazes, changes, advice and notes', async () => {
    const { text, seen } = await printed();
    const more = year.more as { headline: string; compared: string; worst: string; advice: string[] };
    for (const sentence of [more.headline, more.compared, more.worst, ...more.advice, ...year.notes])
      expect(text).toContain(plain(sentence));
    // 48 of them at £12 and 6 at £5 less than the price of a first; the year before 12 and 6.
    expect(text).toContain('Lost, in GBP £606.00; the year before £174.00');
    expect(text).toMatch(/Firsts 216 80 % 252 93 %/);
    expect(text).toMatch(/Quicksilver Run \d+ \d+ – \d+ 90/);
    expect(text).toContain('Сажа ночи');
    expect(text).toMatch(
      /Quicksilver Run: 48 of 90 \(53 %\), 12 of 90 \(13 %\) the year before; .* more than last year, beyond chance\./,
    );
    expect(seen.title).toBe('The year on a page: 2026');
  });

  test('is a sound file of that size with its letters in it, numbered and dated, and clear of the margins', async () => {
    const { seen } = await printed();
    expect(seen.mended).toBe(false);
    expect(seen.fonts().every(({ inside }) => inside)).toBe(true);
    expect(seen.pages).toBeLessThanOrEqual(2);
    const { width, height } = seen.size(0);
    expect(width).toBeCloseTo(PAPERS[paper].width, 0);
    expect(height).toBeCloseTo(PAPERS[paper].height, 0);
    for (let page = 0; page < seen.pages; page += 1) {
      expect(plain(seen.text(page))).toContain('Hollin Yard Pottery');
      expect(seen.text(page).replace(/\s/g, '')).toContain(`30June2026·${page + 1}/${seen.pages}`);
      const ink = inked(seen.raster(page, 60))!;
      expect(ink.left).toBeGreaterThan(10);
      expect(ink.right).toBeLessThan(width - 10);
    }
  });
});

test('a year without graded ware is a page that says so', async () => {
  const { pdf } = await studio.host.paper('seconds-tally', 'year', { from: '2020-01-01', to: '2020-12-31' });
  expect(plain(lookAt(pdf).text(0))).toContain('2020: no graded pieces.');
});

test('a fault’s guide is a paper to pin up', async () => {
  const { name, pdf } = await studio.host.paper('defect-rates', 'fault-guide', {
    fault: 'runs',
    paper: 'Letter',
  });
  expect(name).toBe('fault-guide-runs.pdf');
  const seen = lookAt(pdf);
  const text = plain(Array.from({ length: seen.pages }, (_, at) => seen.text(at)).join(' '));
  const guide = await studio.host.report('defect-rates', 'fault-guide', { fault: 'runs' });
  expect(text).toContain(plain(guide.sentence));
  for (const row of guide.rows.filter(({ kind }) => kind === 'book' || kind === 'try' || kind === 'caution'))
    expect(text).toContain(plain(String(row.label)));
  expect(text).toContain('(common practice)');
  expect(seen.pages).toBe(1);
});
