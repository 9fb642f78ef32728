/** Drawings brought in: true to their units and transforms, and nothing in them that runs, hides or hangs. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  areaOf,
  boxOf,
  heightOf,
  lengthOf,
  widthOf,
} from '../../../plugins/template-sheets/shape/measure.ts';
import { readSvg } from '../../../plugins/template-sheets/svg/read-svg.ts';
import { made, wrongWith } from './made.ts';

const svg = (inside: string, root = 'width="200mm" height="100mm" viewBox="0 0 200 100"'): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" ${root}>${inside}</svg>`;

function read(text: string) {
  const found = readSvg(text);
  if ('wrong' in found) throw new Error(found.wrong.join(' '));
  return { ...found, made: made(found.spec) };
}
const sizeOf = (text: string) => {
  const box = boxOf(read(text).made.pieces[0]!.outline);
  return [widthOf(box), heightOf(box)];
};
const refused = (text: string): string => {
  const found = readSvg(text);
  if (!('wrong' in found)) return wrongWith(found.spec).join(' ');
  return found.wrong.join(' ');
};

describe('units', () => {
  test.each([
    ['mm by a viewBox', svg('<rect width="50" height="20"/>'), 50, 20],
    ['mm on the shape', svg('<rect width="50mm" height="2cm"/>', ''), 50, 20],
    ['inches', svg('<rect width="2in" height="1in"/>', ''), 50.8, 25.4],
    ['px, 96 to the inch', svg('<rect width="192" height="96"/>', ''), 50.8, 25.4],
    ['points', svg('<rect width="144pt" height="72pt"/>', ''), 50.8, 25.4],
    [
      'a viewBox at another scale',
      svg('<rect width="500" height="200"/>', 'width="10cm" height="10cm" viewBox="0 0 1000 1000"'),
      50,
      20,
    ],
    [
      'a viewBox that fits by its height',
      svg('<rect width="500" height="200"/>', 'width="900mm" height="100mm" viewBox="0 0 1000 1000"'),
      50,
      20,
    ],
  ])('%s', (_, text, width, height) => {
    const [w, h] = sizeOf(text);
    expect(w).toBeCloseTo(width, 3);
    expect(h).toBeCloseTo(height, 3);
  });

  test('a drawing that says no size is taken at 96 to the inch, and says so', () => {
    expect(read(svg('<rect width="192" height="96"/>', 'viewBox="0 0 300 300"')).dropped).toEqual([
      'The drawing says no size in mm; its units were taken as 1/96 inch.',
    ]);
  });
});

describe('shapes', () => {
  test('circle, ellipse, rounded rectangle, polygon and path have their areas', () => {
    const area = (shape: string) => areaOf(read(svg(shape)).made.pieces[0]!.outline);
    expect(area('<circle cx="50" cy="50" r="40"/>')).toBeCloseTo(Math.PI * 1600, -1);
    expect(area('<ellipse cx="50" cy="50" rx="40" ry="20"/>')).toBeCloseTo(Math.PI * 800, -1);
    expect(area('<rect width="80" height="60" rx="10"/>')).toBeCloseTo(4800 - (4 - Math.PI) * 100, 0);
    expect(area('<polygon points="0,0 60,0 60,40"/>')).toBeCloseTo(1200, 6);
    expect(area('<path d="M10 10h60v40h-60z"/>')).toBeCloseTo(2400, 6);
  });

  test('arcs in a path keep within 0.01 mm of the circle', () => {
    const [piece] = read(svg('<path d="M0 50a50 50 0 1 1 100 0a50 50 0 1 1 -100 0z"/>')).made.pieces;
    for (const [x, y] of piece!.outline) expect(Math.hypot(x - 50, y - 50)).toBeCloseTo(50, 2);
    expect(lengthOf(piece!.outline, true)).toBeCloseTo(100 * Math.PI, 1);
  });

  test('transforms of groups, uses and symbols are put together in their order', () => {
    const placed = read(
      svg(
        `<defs><symbol id="s"><rect id="slab" x="1" width="10" height="5"/></symbol></defs>
         <g transform="translate(20,10) rotate(90)"><use xlink:href="#s" x="3" y="4" transform="scale(2)"/></g>`,
      ),
    );
    const box = boxOf(placed.made.pieces[0]!.outline);
    // (1…11, 0…5) → +3, +4 → ×2 → turned (x, y) → (−y, x) → +20, +10.
    expect([box.left, box.top, box.right, box.bottom].map((n) => Math.round(n * 1e4) / 1e4)).toEqual([
      2, 18, 12, 38,
    ]);
  });

  test('any turn and shift leaves a piece its size', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -720, max: 720, noNaN: true }),
        fc.double({ min: -1e4, max: 1e4, noNaN: true }),
        (angle, x) => {
          const text = svg(
            `<g transform="translate(${x} 5)rotate(${angle},3,4)"><rect width="60" height="40"/></g>`,
          );
          const [piece] = read(text).made.pieces;
          expect(areaOf(piece!.outline)).toBeCloseTo(2400, 0);
          expect(lengthOf(piece!.outline, true)).toBeCloseTo(200, 2);
        },
      ),
      { numRuns: 50 },
    );
  });

  test('an outline within a piece is a hole, and one within that a piece again', () => {
    const { spec } = read(
      svg(
        '<rect id="plate" width="90" height="90"/><circle id="hole" cx="45" cy="45" r="30"/><circle id="plug" cx="45" cy="45" r="20"/>',
      ),
    );
    expect(spec.pieces.map(({ name, holes = [] }) => [name, holes.length])).toEqual([
      ['plate', 1],
      ['plug', 0],
    ]);
  });

  test('a layer’s name says how its lines are to be read; open lines are marks', () => {
    const { spec } = read(
      svg(
        `<title>House Lantern</title><rect id="wall" width="90" height="90"/>
         <g class="fold-lines"><path d="M30 0v90"/></g><g id="bevels"><path d="M2 2v80"/></g><path d="M50 10h20"/>`,
      ),
    );
    expect(spec.name).toBe('House Lantern');
    expect(spec.pieces[0]!.lines!.map(({ pen }) => pen)).toEqual(['fold', 'bevel', 'mark']);
  });

  test('loose lines that meet end to end are one outline', () => {
    const { spec, made: set } = read(
      svg('<path d="M0 0h50"/><path d="M50 30V0"/><path d="M50 30H0"/><line x1="0" y1="30" x2="0" y2="0"/>'),
    );
    expect(spec.pieces).toHaveLength(1);
    expect(areaOf(set.pieces[0]!.outline)).toBeCloseTo(1500, 3);
  });
});

describe('what is left out is named', () => {
  test.each([
    ['<script id="bad">alert(1)</script>', /<script> “bad” on line 1 was left out: scripts are never run/],
    [
      '<foreignObject><p/></foreignObject>',
      /<foreignobject> on line 1 was left out: foreign objects are not drawn/,
    ],
    [
      '<image href="https://example.invalid/a.png"/>',
      /<image> on line 1 was left out: pictures are not traced here/,
    ],
    [
      '<use id="u" href="https://example.invalid/a.svg#x"/>',
      /<use> “u” on line 1 was left out: it refers to something outside/,
    ],
    ['<use href="#gone"/>', /there is no “gone” in the drawing/],
    ['<g onclick="alert(1)"/>', /“onclick” of <g> on line 1 was left out/],
    ['<text>Hollin Yard</text>', /lettering is not cut/],
  ])('%s', (part, sentence) => {
    const { spec, dropped } = read(svg(`<rect width="50" height="20"/>${part}`));
    expect(dropped.join(' ')).toMatch(sentence);
    expect(JSON.stringify(spec)).not.toMatch(/alert|example\.invalid/);
  });

  test('what is hidden or only kept for use is not drawn', () => {
    const { spec } = read(
      svg(
        '<rect width="50" height="20"/><rect style="display:none" width="9" height="9"/><defs><rect width="7" height="7"/></defs>',
      ),
    );
    expect(spec.pieces).toHaveLength(1);
  });
});

describe('what cannot be read is refused by name, and soon', () => {
  const nested = (levels: number): string =>
    `<defs><rect id="l0" width="10" height="10"/>${Array.from({ length: levels }, (_, at) => `<g id="l${at + 1}">${`<use href="#l${at}"/>`.repeat(10)}</g>`).join('')}</defs><use id="bomb" href="#l${levels}"/>`;
  test.each([
    [
      'entities',
      `<!DOCTYPE svg [<!ENTITY a "b">]>${svg('<rect width="50" height="20"/>')}`,
      /defines entities of its own/,
    ],
    [
      'a bomb of uses',
      svg(nested(9)),
      /<use> on line 1 makes the drawing too large: <use> may stand for at most 2000 copies/,
    ],
    ['a use of itself', svg('<g id="a"><use href="#a"/></g>'), /<use> on line 1 uses itself/],
    [
      'a negative size',
      svg('<rect id="r" width="-5" height="20"/>'),
      /The width of <rect> “r” on line 1 is -5; it should be more than 0/,
    ],
    ['a missing size', svg('<rect id="r" width="5"/>'), /The height of <rect> “r” on line 1 is missing/],
    [
      'a drawing of no width',
      svg('<rect width="5" height="5"/>', 'width="0" height="9"'),
      /The width of <svg> on line 1 is 0/,
    ],
    [
      'a size that is no length',
      svg('<circle r="wide"/>'),
      /The r of <circle> on line 1 is “wide”; it should be a length/,
    ],
    [
      'a flat viewBox',
      svg('<circle r="9"/>', 'viewBox="0 0 0 10"'),
      /The viewBox of <svg> on line 1 is “0 0 0 10”/,
    ],
    [
      'a transform that is none',
      svg('<g transform="spin(4)"><circle r="9"/></g>'),
      /The transform of <g> on line 1 cannot be read: “spin\(4\)”/,
    ],
    ['a broken path', svg('<path id="p" d="M0 0 L10"/>'), /The path of <path> “p” on line 1 cannot be read/],
    ['no outline', svg('<path d="M0 0h5"/>'), /no closed outline in the drawing to cut out/],
    ['another kind of file', '<html></html>', /begins with <html>; a drawing begins with <svg>/],
    ['an unclosed element', '<svg><g></svg>', /not sound SVG: unexpected close tag/],
    ['nothing', '', /empty|document must contain a root element/],
    [
      'a self-crossing outline',
      svg('<path id="bow" d="M0 0L60 40L60 0L0 40z"/>'),
      /The outline of “bow” crosses itself near 30 mm across and 20 mm down/,
    ],
    [
      'a piece of 0.01 mm',
      svg('<rect id="dot" width=".01" height=".01"/>'),
      /“dot” is 0.01 by 0.01 mm; a piece should be from 5 to 2000 mm each way/,
    ],
    ['a piece of 10 m', svg('<rect id="barn" width="10000" height="10"/>'), /“barn” is 10000 by 10 mm/],
    [
      'ten million points',
      svg(`<path id="long" d="M0 0${'h1v1'.repeat(4_000_000)}z"/>`),
      /<path> “long” on line 1 has more than 200000 points|at most 20 MB/,
    ],
    [
      'a million points in many paths',
      svg('<path d="M0 0h9v9h-9z"/>'.repeat(60_000)),
      /more than 20000 shapes/,
    ],
    [
      'a transform without an end',
      svg(`<rect id="top" width="50" height="50" transform="${'rotate(1)'.repeat(1_000_000)}"/>`),
      /The transform of <rect> “top” on line 1 is 9000000 letters long/,
    ],
    ['depth', svg('<g>'.repeat(5_000) + '</g>'.repeat(5_000)), /lies more than 200 elements deep/],
  ])('%s', (_, text, sentence) => {
    const start = performance.now();
    expect(refused(text)).toMatch(sentence);
    expect(performance.now() - start).toBeLessThan(5_000);
  });

  test('an 18 MB path is refused before it is taken apart', () => {
    expect(refused(svg(`<path id="long" d="M0 0${'L 1 1'.repeat(3_600_000)}z"/>`))).toMatch(
      /The path of <path> “long” on line 1 has more than 200000 points/,
    );
  });

  test('whatever text comes in, it is read or refused in a sentence', () => {
    const bits = fc.constantFrom(
      '<svg',
      '>',
      '<path d="',
      'M0 0',
      'a5 5 0 0 1 1e9 nan',
      '"/>',
      '<use href="#a"/>',
      '</svg>',
      '&x;',
      '<g id="a">',
      'viewBox="0 0 1 1"',
      '\u0000',
    );
    fc.assert(
      fc.property(fc.array(bits, { maxLength: 14 }), (parts) => {
        const found = readSvg(`<svg>${parts.join('')}`);
        if ('wrong' in found) expect(found.wrong[0]).toMatch(/\.$/);
        else expect(found.spec.pieces.length).toBeGreaterThan(0);
      }),
      { numRuns: 300 },
    );
  });
});
