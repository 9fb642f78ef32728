/** Documents that flow over pages. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Block, Paper } from '../../server/contract/paper.ts';
import { drawPaper } from '../../server/paper/draw.ts';
import { inked, lookAt } from '../support/looked-at.ts';

const draw = async (blocks: Block[], rest: { paper?: 'A4' | 'Letter'; foot?: string } = {}) => {
  const paper: Paper = { form: 'document', title: 'Load sheet', paper: 'A4', ...rest, blocks };
  return lookAt(await drawPaper(paper, { studio: 'Hollin Yard Pottery', day: '2026-05-01' }));
};

const ROWS = Array.from({ length: 130 }, (_, at) => [
  `piece-${at}-`,
  'Marram Green over Cuttle White',
  String(at * 7),
]);
const TABLE: Block = {
  block: 'table',
  columns: [{ label: 'Piece' }, { label: 'Glazes' }, { label: 'Pieces', align: 'end' }],
  rows: ROWS,
};
const texts = (pdf: Awaited<ReturnType<typeof draw>>) =>
  Array.from({ length: pdf.pages }, (_, at) => pdf.text(at));

test('a long table goes on over the pages with its head on each, and no row is lost or comes twice', async () => {
  const pages = texts(await draw([{ block: 'heading', text: 'In the kiln' }, TABLE]));
  expect(pages.length).toBeGreaterThan(2);
  for (const page of pages) expect(page).toMatch(/Piece\b.*Glazes.*Pieces/s);
  for (const [piece] of ROWS) expect(pages.join('').split(piece!).length - 1, piece).toBe(1);
});

test.each(['A4', 'Letter'] as const)(
  'every page of %s has the studio, the day and its number at the foot, and nothing in the margins',
  async (paper) => {
    const pdf = await draw([TABLE], { paper, foot: 'Big Round' });
    texts(pdf).forEach((text, at) => {
      expect(text).toContain('Hollin Yard Pottery');
      expect(text).toContain('Big Round');
      expect(text.replace(/\s/g, '')).toContain(`1May2026·${at + 1}/${pdf.pages}`);
    });
    const { width, height } = pdf.size(0);
    const box = inked(pdf.raster(0, 100))!;
    expect(box.left).toBeGreaterThan(17);
    expect(box.right).toBeLessThan(width - 17);
    expect(box.bottom).toBeLessThan(height - 8);
  },
);

test('figures in a column end under each other', async () => {
  const rows = [
    ['a', '1'],
    ['b', '11'],
    ['c', '10444'],
  ];
  const pdf = await draw([
    { block: 'table', columns: [{ label: 'x' }, { label: 'y', align: 'end', width: 30 }], rows },
  ]);
  const ends = [23, 30, 37].map(
    (y) => inked(pdf.raster(0, 300, { x: 60, y, width: 140, height: 4.5 }))?.right,
  );
  for (const end of ends) expect(Math.abs(end! - ends[0]!)).toBeLessThan(0.35);
});

test('a heading never stands last on a page', async () => {
  const blocks = Array.from({ length: 40 }, (_, at): Block[] => [
    { block: 'heading', text: `Heading${at}.` },
    { block: 'paragraph', text: `Under${at}. ${'Glaze was wiped off the foot. '.repeat(at % 9)}` },
  ]).flat();
  const pages = texts(await draw(blocks));
  expect(pages.length).toBeGreaterThan(2);
  for (let at = 0; at < 40; at++) {
    const page = pages.find((text) => text.includes(`Heading${at}.`));
    expect(page, `heading ${at}`).toContain(`Under${at}.`);
  }
});

test('a cell that is longer than a page goes on on the next one, to its last word', async () => {
  const story = Array.from({ length: 900 }, (_, at) => `w${at}x`).join(' ');
  const pages = texts(await draw([{ block: 'table', columns: [{ label: 'Story' }], rows: [[story]] }]));
  expect(pages.length).toBeGreaterThan(1);
  const all = pages.join(' ');
  for (let at = 0; at < 900; at++) expect(all).toContain(`w${at}x`);
});

test('whatever the words, the pages keep them all', async () => {
  const word = fc.stringMatching(/^[a-z]{1,40}$/);
  const block = fc.oneof(
    fc.record({ block: fc.constant('heading' as const), text: word }),
    fc.record({
      block: fc.constant('paragraph' as const),
      text: fc.array(word, { minLength: 1 }).map((it) => it.join(' ')),
    }),
    fc.record({
      block: fc.constant('list' as const),
      items: fc.array(word, { minLength: 1, maxLength: 30 }),
    }),
    fc.record({
      block: fc.constant('facts' as const),
      facts: fc.array(fc.tuple(word, word), { minLength: 1, maxLength: 20 }),
    }),
    fc.record({ block: fc.constant('space' as const), height: fc.integer({ min: 0, max: 300 }) }),
    fc.constant({ block: 'page-break' as const }),
    fc.constant({ block: 'rule' as const }),
  );
  await fc.assert(
    fc.asyncProperty(fc.array(block, { maxLength: 12 }), async (blocks) => {
      const all = texts(await draw(blocks))
        .join('')
        .replace(/\s/g, '');
      const said = blocks.flatMap((it) =>
        'text' in it ? it.text.split(' ') : 'items' in it ? it.items : 'facts' in it ? it.facts.flat() : [],
      );
      for (const each of said) expect(all).toContain(each);
    }),
    { numRuns: 25, seed: 7 },
  );
}, 60_000);
