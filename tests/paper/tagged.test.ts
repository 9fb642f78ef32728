/** What a paper's parts are, as a screen reader is told (tagged PDF), read back by MuPDF. */
import { describe, expect, test } from 'vitest';
import { drawTemplate } from '../../plugins/template-sheets/drawing/draw-template.ts';
import type { Paper } from '../../server/contract/paper.ts';
import { drawPaper } from '../../server/paper/draw.ts';
import { sheetsOf } from '../plugins/template-sheets/made.ts';
import { lookAt, type Part } from '../support/looked-at.ts';

const PRINTING = { studio: 'Hollin Yard Pottery', day: '2026-05-01' };
const kinds = (parts: readonly Part[]): string[] => parts.map(({ as }) => as);
const flat = (parts: readonly Part[]): Part[] => parts.flatMap((part) => [part, ...flat(part.parts)]);

describe('a document', () => {
  const rows = Array.from({ length: 90 }, (_, at) => [`Shelf ${at + 1}`, 'Marram Green']);
  const given: Paper = {
    form: 'document',
    title: 'What was fired',
    paper: 'A4',
    blocks: [
      { block: 'heading', text: 'What was fired', level: 1 },
      { block: 'paragraph', text: 'Of the pots of the week, those that came out well. '.repeat(12) },
      { block: 'list', items: ['bowls', 'jugs'] },
      { block: 'table', columns: [{ label: 'Shelf' }, { label: 'Glaze' }], rows },
    ],
  };

  test('has headings, paragraphs, a list and a table, each once, over as many pages as they take', async () => {
    const seen = lookAt(await drawPaper(given, PRINTING));
    expect(seen.pages).toBeGreaterThan(1);
    expect(seen.marked).toBe(true);
    expect(seen.language).toBe('en-GB');
    const [whole] = seen.structure();
    expect(whole!.as).toBe('Document');
    expect(kinds(whole!.parts)).toEqual(['H1', 'P', 'L', 'Table']);
    const [, , list, table] = whole!.parts;
    expect(kinds(flat(list!.parts))).toEqual(['LI', 'LBody', 'LI', 'LBody']);
    // The head comes again on each page, and is told once.
    expect(table!.parts).toHaveLength(rows.length + 1);
    expect(kinds(table!.parts[0]!.parts)).toEqual(['TH', 'TH']);
    expect(kinds(table!.parts.at(-1)!.parts)).toEqual(['TD', 'TD']);
  });

  test('has a place in the structure for every part of a page that is read', async () => {
    const seen = lookAt(await drawPaper(given, PRINTING));
    const placed = flat(seen.structure()).reduce((sum, { contents }) => sum + contents, 0);
    expect(placed).toBe(seen.marks());
    expect(placed).toBeGreaterThan(180);
  });
});

test('a set of templates tells its headings and words, and what each picture shows', async () => {
  const template = sheetsOf({ form: 'cylinder', diameter: 90, height: 120, thickness: 5, name: 'Beaker' });
  const made = drawTemplate(template, { maker: 'Hollin Yard Pottery', howTo: 'Roll it 6 mm.' });
  const seen = lookAt(await drawPaper(made, PRINTING));
  const sections = seen.structure()[0]!.parts;
  expect(kinds(sections)).toEqual(Array.from({ length: seen.pages }, () => 'Sect'));
  for (const section of sections) expect(kinds(flat(section.parts))).toContain('H1');
  const told = flat(sections).flatMap(({ as, alt }) => (as === 'Figure' ? [alt] : []));
  expect(told.every((alt) => alt !== undefined && alt !== '')).toBe(true);
  expect(told).toContain('A ruler: 100 mm above its line, 4 inches below it');
  expect(told).toContain('Arrow A1, to page 2');
  expect(told).toContain('The pot in the round');
  expect(flat(sections).reduce((sum, { contents }) => sum + contents, 0)).toBe(seen.marks());
});
