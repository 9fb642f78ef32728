/** Millimetres on paper are millimetres: measured in dots by a reader of its own. */
import { describe, expect, test } from 'vitest';
import { type Mark, PAPERS, type Paper } from '../../server/contract/paper.ts';
import { drawPaper } from '../../server/paper/draw.ts';
import { inked, lookAt } from '../support/looked-at.ts';

const PRINTING = { studio: 'Hollin Yard Pottery', day: '2026-05-01' };
const draw = async (width: number, height: number, ...marks: Mark[]) => {
  const paper: Paper = { form: 'sheets', title: 'Ruler', sheets: [{ width, height, marks }] };
  return lookAt(await drawPaper(paper, PRINTING));
};

const SHEETS = [
  ...Object.entries(PAPERS),
  ['a roll', { width: 914.4, height: 1_500 }],
  ['a small label', { width: 62, height: 29 }],
] as const;

describe.each(SHEETS)('on %s', (_name, { width, height }) => {
  test('the page is as large as it says, and asks to be printed at 100 %', async () => {
    const pdf = await draw(width, height, { mark: 'circle', x: 5, y: 5, radius: 1 });
    expect(pdf.size(0).width).toBeCloseTo(width, 3);
    expect(pdf.size(0).height).toBeCloseTo(height, 3);
    expect(pdf.printScaling).toBe('None');
    expect(pdf.mended).toBe(false);
  });

  test('a line over the whole width is true within 0.05 mm at 600 dots an inch', async () => {
    const span = Math.min(250, width - 10);
    const thin: Mark = { mark: 'box', x: 5, y: 5, width: span, height: 2, fill: 0 };
    const pdf = await draw(width, height, thin);
    const seen = inked(pdf.raster(0, 600, { x: 0, y: 5.5, width: span + 10, height: 1 }))!;
    expect(Math.abs(seen.right - seen.left - span)).toBeLessThan(0.05);
    expect(Math.abs(seen.left - 5)).toBeLessThan(0.05);
  });
});

describe('marks', () => {
  const PART = { x: 0, y: 0, width: 60, height: 60 };
  const seen = async (...marks: Mark[]) => inked((await draw(100, 100, ...marks)).raster(0, 600, PART))!;
  const near = (value: number, wanted: number) => expect(Math.abs(value - wanted)).toBeLessThan(0.06);

  test.each<[string, Mark, [number, number, number, number]]>([
    ['a path of SVG', { mark: 'path', d: 'M10 10h20v15h-20z', fill: 0 }, [10, 10, 30, 25]],
    ['a circle', { mark: 'circle', x: 20, y: 20, radius: 5, fill: 0 }, [15, 15, 25, 25]],
    [
      'a line with a pen',
      {
        mark: 'line',
        points: [
          [10, 20],
          [30, 20],
        ],
        pen: { width: 1 },
      },
      [10, 19.5, 30, 20.5],
    ],
    [
      'a group that is moved and made larger',
      {
        mark: 'group',
        x: 10,
        y: 5,
        scale: 2,
        marks: [{ mark: 'box', x: 1, y: 1, width: 5, height: 5, fill: 0 }],
      },
      [12, 7, 22, 17],
    ],
    [
      'a group that is turned clockwise',
      {
        mark: 'group',
        x: 30,
        y: 10,
        turn: 90,
        marks: [{ mark: 'box', x: 0, y: 0, width: 20, height: 5, fill: 0 }],
      },
      [25, 10, 30, 30],
    ],
    [
      'a group that is clipped',
      {
        mark: 'group',
        x: 10,
        clip: { x: 0, y: 10, width: 8, height: 4 },
        marks: [{ mark: 'box', x: -5, y: 0, width: 40, height: 40, fill: 0 }],
      },
      [10, 10, 18, 14],
    ],
    ['a QR code', { mark: 'qr', x: 10, y: 10, size: 21, text: 'ACDE7' }, [10, 10, 31, 31]],
  ])('%s stands where it was put', async (_what, mark, [left, top, right, bottom]) => {
    const box = await seen(mark);
    near(box.left, left);
    near(box.top, top);
    near(box.right, right);
    near(box.bottom, bottom);
  });

  test('words stay in their box: made smaller, or cut where even the smallest are too much', async () => {
    const text = 'Marram Green over Cuttle White, wiped back on the rim, for the altar lamp of the chapel';
    const box = { x: 5, y: 5, width: 30, height: 12 };
    for (const fit of ['shrink', 'cut'] as const) {
      const ink = await seen({
        mark: 'words',
        text: fit === 'cut' ? text : `${text}. ${text}. ${text}`,
        size: 6,
        fit,
        ...box,
      });
      expect(ink.left).toBeGreaterThan(4.9);
      expect(ink.right).toBeLessThan(35.1);
      expect(ink.bottom).toBeLessThan(17.1);
    }
  });

  test('words without a box begin, centre or end at their place', async () => {
    const at = (align: 'left' | 'middle' | 'right') =>
      seen({ mark: 'words', text: 'HHHH', x: 30, y: 10, size: 5, align });
    const [left, middle, right] = [await at('left'), await at('middle'), await at('right')];
    near(left.left - 30, 30 - right.right);
    expect(Math.abs((middle.left + middle.right) / 2 - 30)).toBeLessThan(0.1);
  });
});

test('the same paper on the same day is the same file; on another day it is not', async () => {
  const paper: Paper = {
    form: 'document',
    title: 'Opening sheet',
    paper: 'A4',
    blocks: [{ block: 'paragraph', text: 'Ansa, 田中, Ελένη' }],
  };
  const [one, other, later] = await Promise.all([
    drawPaper(paper, PRINTING),
    drawPaper(structuredClone(paper), PRINTING),
    drawPaper(paper, { ...PRINTING, day: '2026-05-02' }),
  ]);
  expect(Buffer.compare(one, other)).toBe(0);
  expect(Buffer.compare(one, later)).not.toBe(0);
});

test('a picture is drawn whole inside its box', async () => {
  // A PNG of one black dot.
  const base64 =
    'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNgAAAAAgABSK+kcQAAAABJRU5ErkJggg==';
  const picture: Mark = { mark: 'picture', x: 10, y: 10, width: 30, height: 10, type: 'image/png', base64 };
  const box = inked((await draw(100, 100, picture)).raster(0, 600, { x: 0, y: 0, width: 60, height: 60 }))!;
  expect(box.left).toBeCloseTo(20, 1);
  expect(box.right).toBeCloseTo(30, 1);
});
