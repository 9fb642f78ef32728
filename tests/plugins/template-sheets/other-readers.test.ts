/** True size and a sound file by readers that share no code: MuPDF and pdf-lib always, poppler and qpdf where they are. */
import { PDFDocument } from 'pdf-lib';
import { beforeAll, describe, expect, test } from 'vitest';
import { drawTemplate, pagesOf } from '../../../plugins/template-sheets/drawing/draw-template.ts';
import type { Spec } from '../../../plugins/template-sheets/spec/spec.ts';
import { drawPaper } from '../../../server/paper/draw.ts';
import { lookAt, type Raster } from '../../support/looked-at.ts';
import { renderers, wrongByQpdf } from '../../support/other-readers.ts';
import { sheetsOf } from './made.ts';

const DPI = 600;
const WORDS = { maker: 'Hollin Yard Pottery', licence: 'For pots you make by hand.', howTo: 'Roll it 6 mm.' };
const plate: Spec = {
  form: 'drawing',
  name: 'Plate',
  pieces: [{ name: 'plate', outline: 'M0 0H150V90H0Z' }],
};
const template = sheetsOf(plate, 'A4');
let pdf: Uint8Array;
beforeAll(async () => {
  pdf = await drawPaper(drawTemplate(template, WORDS), { studio: WORDS.maker, day: '2026-05-01' });
});

/** Middles of the stretches of ink from left to right, mm. */
function upright({ width, height, pixels, perMm }: Raster): number[] {
  const inked = Array.from({ length: width }, (_, x) =>
    Array.from({ length: height }, (__, y) => pixels[y * width + x]!).every((grey) => grey < 128),
  );
  return inked.flatMap((on, from) => {
    if (!on || inked[from - 1]) return [];
    let to = from;
    while (inked[to + 1]) to++;
    return [(from + to + 1) / 2 / perMm];
  });
}

describe('whoever reads the file', () => {
  test('finds an edge of 150 mm and a ruler of 100 mm within 0.1 mm', () => {
    const [sheet] = template.sheets.sheets;
    const { margin, foot } = template.sheets.page;
    const { left, top } = sheet!.window;
    const ruler = template.sheets.page.paper.height - margin - foot + 1.5 + 5.2;
    for (const { name, raster } of renderers()) {
      const across = upright(raster(pdf, 0, DPI, { x: left - 2, y: top + 40, width: 160, height: 0.3 }));
      expect(across, name).toHaveLength(2);
      expect(Math.abs(across[1]! - across[0]! - 150), name).toBeLessThan(0.1);
      const tens = upright(raster(pdf, 0, DPI, { x: margin - 1, y: ruler - 2.8, width: 104, height: 0.3 }));
      expect(tens, name).toHaveLength(11);
      expect(Math.abs(tens[10]! - tens[0]! - 100), name).toBeLessThan(0.1);
    }
  });

  test('finds a sound file with every page', async () => {
    expect(lookAt(pdf).mended).toBe(false);
    const loaded = await PDFDocument.load(pdf);
    expect(loaded.getPageCount()).toBe(pagesOf(template));
    expect(wrongByQpdf(pdf) ?? '').toBe('');
  });
});
