/** A made-up photo with known warp, noise and shadow: the paper's outline comes back as it was. */
import { describe, expect, test } from 'vitest';
import type { Point } from '../../../plugins/template-sheets/piece.ts';
import type { Grey } from '../../../plugins/template-sheets/scan/grey.ts';
import { type Known, readScan } from '../../../plugins/template-sheets/scan/read-scan.ts';
import { boxOf } from '../../../plugins/template-sheets/shape/measure.ts';
import { pointsMoved, shift } from '../../../plugins/template-sheets/shape/move.ts';
import { made, pieceOf } from './made.ts';
import { apart, corners, photo, pocket } from './photo.ts';

const atHome = (outline: readonly Point[]): Point[] => {
  const box = boxOf(outline);
  return pointsMoved(outline, shift(-box.left, -box.top));
};

describe('a photo of a paper template beside a sheet of known size', () => {
  const dim = photo(7);
  test.each([
    ['clear', photo(0, false)],
    ['noisy and half in shadow', dim],
  ] as const)('%s: the outline back within 0.5 mm', (_, picture) => {
    const read = readScan(picture, { corners, width: 148, height: 210 });
    if ('wrong' in read) throw new Error(read.wrong.join(' '));
    expect(read.spec.pieces).toHaveLength(1);
    const found = pieceOf(made(read.spec), 'piece 1').outline;
    expect(apart(atHome(found), atHome(pocket))).toBeLessThan(0.5);
    // Clean: a few curves for a line of hundreds of traced points.
    expect(read.spec.pieces[0]!.outline.match(/C/g)!.length).toBeLessThan(24);
  });

  test('every corner marked a pixel off costs a millimetre or so at the far end', () => {
    const off = corners.map(([x, y], at): Point => [x + (at % 2 ? 1 : -1), y + (at > 1 ? 1 : -1)]);
    const read = readScan(dim, { corners: off, width: 148, height: 210 } as unknown as Known);
    if ('wrong' in read) throw new Error(read.wrong.join(' '));
    expect(apart(atHome(pieceOf(made(read.spec), 'piece 1').outline), atHome(pocket))).toBeLessThan(1.5);
  });
});

describe('what cannot be measured is said', () => {
  const blank: Grey = { width: 200, height: 200, shades: new Float32Array(200 * 200).fill(120) };
  const square = (size: number): Known => ({
    corners: [
      [10, 10],
      [10 + size, 10],
      [10 + size, 10 + size],
      [10, 10 + size],
    ],
    width: 100,
    height: 100,
  });
  test.each([
    ['a table without paper', square(120), /No piece of paper was found whole/],
    [
      'a picture too coarse',
      { ...square(120), width: 900, height: 900 },
      /A pixel of this picture is 7.5 mm/,
    ],
    [
      'corners in a line',
      {
        corners: [
          [0, 0],
          [50, 0],
          [100, 0],
          [150, 0],
        ],
        width: 9,
        height: 9,
      },
      /four corners should go once around/,
    ],
    [
      'crossed corners',
      {
        corners: [
          [0, 0],
          [99, 99],
          [99, 0],
          [0, 99],
        ],
        width: 9,
        height: 9,
      },
      /four corners should go once around/,
    ],
    ['a sheet of no width', { ...square(120), width: 0 }, /width and height should be more than 0/],
    [
      'two points in one place',
      {
        points: [
          [5, 5],
          [6, 6],
        ],
        length: 10,
      },
      /two points should lie well apart/,
    ],
  ] as const)('%s', (_, known, sentence) => {
    const read = readScan(blank, known as Known);
    expect('wrong' in read && read.wrong[0]).toMatch(sentence);
  });
});
