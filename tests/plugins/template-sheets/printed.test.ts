/** The sheets as a printer gets them, measured in dots by a reader that shares no code with what drew them. */
import { describe, expect, test } from 'vitest';
import { drawTemplate, pagesOf } from '../../../plugins/template-sheets/drawing/draw-template.ts';
import type { Point } from '../../../plugins/template-sheets/piece.ts';
import type { Sheet } from '../../../plugins/template-sheets/sheets/sheet.ts';
import type { Spec } from '../../../plugins/template-sheets/spec/spec.ts';
import type { Template } from '../../../plugins/template-sheets/template.ts';
import { drawPaper } from '../../../server/paper/draw.ts';
import { type LookedAt, lookAt, type Raster } from '../../support/looked-at.ts';
import { sheetsOf } from './made.ts';

const DPI = 600;
const PAPERS = ['A4', 'A3', 'Letter', 'Tabloid', 'roll 610'];
const WORDS = {
  maker: 'Hollin Yard Pottery',
  licence: 'For pots you make by hand.',
  howTo: 'Roll the slab 6 mm thick.',
};

interface Printed {
  readonly template: Template;
  readonly bytes: number;
  readonly seen: LookedAt;
}

async function printed(
  spec: Spec,
  paper: string,
  dressing: Parameters<typeof drawTemplate>[1] = WORDS,
): Promise<Printed> {
  const template = sheetsOf(spec, paper);
  const pdf = await drawPaper(drawTemplate(template, dressing), {
    studio: 'Hollin Yard Pottery',
    day: '2026-05-01',
  });
  return { template, bytes: pdf.length, seen: lookAt(pdf) };
}

const plate: Spec = {
  form: 'drawing',
  name: 'Plate',
  pieces: [{ name: 'plate', outline: 'M0 0H250V90H0Z' }],
};
const vase: Spec = {
  form: 'frustum',
  bottom: 130,
  top: 190,
  height: 260,
  seam: 8,
  shrinkage: 0.12,
  base: true,
  name: 'Vase',
};

/** Middles of the stretches of ink along one axis, in mm from the raster's corner. */
function stretches({ width, height, pixels, perMm }: Raster, axis: 'x' | 'y'): number[] {
  const [long, wide] = axis === 'x' ? [width, height] : [height, width];
  const inked = Array.from({ length: long }, (_, at) =>
    Array.from(
      { length: wide },
      (__, other) => pixels[axis === 'x' ? other * width + at : at * width + other]!,
    ).some((grey) => grey < 128),
  );
  const found: number[] = [];
  for (let from = 0; from < long; from++) {
    if (!inked[from] || inked[from - 1]) continue;
    let to = from;
    while (inked[to + 1]) to++;
    found.push((from + to + 1) / 2 / perMm);
  }
  return found;
}

describe.each(PAPERS)('on %s', (paper) => {
  test('the ruler is 100 mm and 4 inches long, and every ten and every inch is in its place within 0.1 mm', async () => {
    const { template, seen } = await printed({ form: 'cylinder', diameter: 90, height: 120 }, paper);
    const { margin, foot } = template.sheets.page;
    for (let page = 0; page < seen.pages; page++) {
      const last = page === seen.pages - 1;
      const left = last ? margin + 4 : margin;
      const { height } = seen.size(page);
      const line = last ? height - margin - 16 + 5.2 : height - margin - foot + 1.5 + 5.2;
      const at = (y: number) =>
        stretches(seen.raster(page, DPI, { x: left - 1, y, width: 104, height: 0.3 }), 'x').map((x) => x - 1);
      const tens = at(line - 2.8);
      expect(tens).toHaveLength(11);
      for (const [ten, x] of tens.entries()) expect(Math.abs(x - 10 * ten)).toBeLessThan(0.1);
      const inches = at(line + 2.6);
      expect(inches).toHaveLength(5);
      for (const [inch, x] of inches.entries()) expect(Math.abs(x - 25.4 * inch)).toBeLessThan(0.1);
    }
  });

  test('an edge of 250 mm is 250 mm long within 0.1 mm, over as many pages as it takes', async () => {
    const { template, seen } = await printed(plate, paper);
    expect(Math.abs((await longSide(template, seen)) - 250)).toBeLessThan(0.1);
  });
});

/** As a buyer measures it: on each page, and from page to page by the arrow that both show. */
async function longSide({ sheets, made }: Template, seen: LookedAt): Promise<number> {
  expect(made.pieces).toHaveLength(1);
  const shown = sheets.sheets;
  const corners = shown.flatMap((sheet) =>
    sheet.lines.flatMap(({ points }) => points.map((point) => onPlane(sheet, point))),
  );
  const spread = (axis: 0 | 1) =>
    Math.max(...corners.map((point) => point[axis])) - Math.min(...corners.map((point) => point[axis]));
  const axis = spread(0) > spread(1) ? 0 : 1;
  const ends = [
    Math.min(...corners.map((point) => point[axis])),
    Math.max(...corners.map((point) => point[axis])),
  ] as const;
  const other = Math.min(...corners.map((point) => point[1 - axis]!)) + 30;
  const [first, last] = ends.map((end) => edgeAt(shown, seen, axis, end, other));
  if (first!.sheet === last!.sheet) return last!.at - first!.at;
  // By the arrow that joins the two pages.
  const join = first!.sheet.joins.find(({ to }) => to === last!.sheet.page)!;
  const fellow = last!.sheet.joins.find(({ label }) => label === join.label)!;
  const [here, there] = [
    arrowTip(seen, first!.sheet, join.arrow, axis),
    arrowTip(seen, last!.sheet, fellow.arrow, axis),
  ];
  return here - first!.at + (last!.at - there);
}

const onPlane = ({ origin, window }: Sheet, [x, y]: Point): Point => [
  x - window.left + origin[0],
  y - window.top + origin[1],
];
const onPage = ({ origin, window }: Sheet, [x, y]: Point): Point => [
  x + window.left - origin[0],
  y + window.top - origin[1],
];

/** Where the outline crosses the axis near `end`, as the dots show it; on the first page that shows it. */
function edgeAt(shown: readonly Sheet[], seen: LookedAt, axis: 0 | 1, end: number, other: number) {
  const spot: Point = axis === 0 ? [end, other] : [other, end];
  for (const sheet of shown) {
    const [x, y] = onPage(sheet, spot);
    const { left, top, width, height } = sheet.window;
    if (x < left || y < top || x > left + width || y > top + height) continue;
    const part =
      axis === 0 ? { x: x - 0.7, y, width: 1.4, height: 0.3 } : { x, y: y - 0.7, width: 0.3, height: 1.4 };
    const found = stretches(seen.raster(sheet.page - 1, DPI, part), axis === 0 ? 'x' : 'y');
    expect(found).toHaveLength(1);
    return { sheet, at: found[0]! + (axis === 0 ? part.x : part.y) };
  }
  throw new Error('no page shows the edge');
}

/** How far along the axis the arrow's upright side stands, as the dots show it. */
function arrowTip(seen: LookedAt, sheet: Sheet, arrow: readonly Point[], axis: 0 | 1): number {
  const [a, b] = arrow as [Point, Point];
  const middle: Point = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  const part =
    axis === 0
      ? { x: middle[0] - 1.2, y: middle[1], width: 2.4, height: 0.2 }
      : { x: middle[0], y: middle[1] - 1.2, width: 0.2, height: 2.4 };
  const found = stretches(seen.raster(sheet.page - 1, DPI, part), axis === 0 ? 'x' : 'y');
  return found[0]! + (axis === 0 ? part.x : part.y);
}

/** Nothing but full lines: the rhythm of a broken one begins anew on each page. */
const cone: Spec = { form: 'frustum', bottom: 130, top: 190, height: 260, shrinkage: 0.12, name: 'Cone' };

/** mm at each end of a strip where a third page is trimmed. */
const ENDS = 14;

describe('pages that join', () => {
  test.each(['A4', 'Letter'])('show the same in their overlap within 0.2 mm, on %s', async (paper) => {
    const { template, seen } = await printed(cone, paper);
    const { sheets, page } = template.sheets;
    let compared = 0;
    for (const sheet of sheets)
      for (const { cut, neighbour } of sheet.trims) {
        if (cut) continue;
        const next = sheets[neighbour - 1]!;
        const right = next.column > sheet.column;
        const { left, top, width, height } = sheet.window;
        const strip = right
          ? { x: left + width - page.overlap, y: top + ENDS, width: page.overlap, height: height - 2 * ENDS }
          : { x: left + ENDS, y: top + height - page.overlap, width: width - 2 * ENDS, height: page.overlap };
        const [x, y] = onPage(next, onPlane(sheet, [strip.x, strip.y]));
        const one = seen.raster(sheet.page - 1, DPI, strip);
        const other = seen.raster(next.page - 1, DPI, { ...strip, x, y });
        const { dots, apart } = notIn(one, other, 0.2);
        expect(apart, `pages ${sheet.page} and ${next.page}`).toBe(0);
        compared += dots;
      }
    expect(compared).toBeGreaterThan(2_000);
  });

  test('and do not, where one was printed a little too small', async () => {
    const { template, seen } = await printed(cone, 'A4');
    const [sheet] = template.sheets.sheets;
    const { left, top, width, height } = sheet!.window;
    const strip = { x: left + width - 12, y: top, width: 12, height };
    const [x, y] = onPage(template.sheets.sheets[1]!, onPlane(sheet!, [strip.x, strip.y]));
    const one = seen.raster(0, DPI, strip);
    const other = seen.raster(1, DPI, { ...strip, x: x + 0.5, y: y + 0.5 });
    expect(notIn(one, other, 0.2).apart).toBeGreaterThan(50);
  });
});

/** Dots of ink in the one that have none within `mm` in the other. The other also shows where to trim. */
function notIn(one: Raster, other: Raster, mm: number): { dots: number; apart: number } {
  const reach = Math.floor(mm * one.perMm);
  let [dots, apart] = [0, 0];
  for (let y = reach; y < one.height - reach; y++)
    for (let x = reach; x < one.width - reach; x++) {
      if (one.pixels[y * one.width + x]! >= 128) continue;
      dots++;
      let near = false;
      for (let dy = -reach; dy <= reach && !near; dy++)
        for (let dx = -reach; dx <= reach && !near; dx++)
          near = other.pixels[(y + dy) * other.width + x + dx]! < 128;
      if (!near) apart++;
    }
  return { dots, apart };
}

test('cut, fold and bevel are told apart without colour: how much of each is inked', async () => {
  const jug: Spec = { form: 'polygon', sides: 4, bottomSide: 40, height: 150, thickness: 6, seam: 'bevel' };
  const { template, seen } = await printed(jug, 'A3');
  const share = (pen: string): number => {
    const { points, closed } = template.sheets.sheets[0]!.lines.find((line) => line.pen === pen)!;
    const all = closed ? [...points, points[0]!] : points;
    const at = all.findIndex(
      (a, n) => n > 0 && Math.hypot(a[0] - all[n - 1]![0], a[1] - all[n - 1]![1]) > 100,
    );
    const [a, b] = [all[at - 1]!, all[at]!];
    const dots = Array.from({ length: 900 }, (_, n) => {
      const [x, y] = [a[0] + ((b[0] - a[0]) * (n + 50)) / 1_000, a[1] + ((b[1] - a[1]) * (n + 50)) / 1_000];
      return seen.raster(0, 300, { x: x - 0.04, y: y - 0.04, width: 0.09, height: 0.09 }).pixels[0]! < 128;
    });
    return dots.filter(Boolean).length / dots.length;
  };
  expect(share('cut')).toBe(1);
  expect(Math.abs(share('fold') - 5 / 7.5)).toBeLessThan(0.05);
  expect(Math.abs(share('bevel') - 6.6 / 9.8)).toBeLessThan(0.05);
  // The two broken lines differ by their rhythm: a dot between the dashes.
  const { fold, bevel } = (await import('../../../plugins/template-sheets/sheets/pens.ts')).STROKES;
  expect(bevel.dash.length).toBe(2 * fold.dash.length);
}, 60_000);

test('every page tells the name, the size, the shrinkage, whose it is and how to print it', async () => {
  const { seen } = await printed(vase, 'A4', { ...WORDS, order: '1207' });
  for (let page = 0; page < seen.pages - 1; page++) {
    const text = seen.text(page).replace(/\s+/g, ' ');
    for (const said of [
      'Vase',
      'clay shrinks 12 %',
      'height 260 mm',
      `Page ${page + 1} of ${seen.pages - 1}`,
      'Print at 100 %',
      'Hollin Yard Pottery',
      'For pots you make by hand.',
      'order 1207',
      '100 mm',
      '4 inches',
    ])
      expect(text, said).toContain(said);
  }
  const guide = seen.text(seen.pages - 1).replace(/\s+/g, ' ');
  for (const said of [
    'How the pages lie',
    'Roll the slab 6 mm thick.',
    'Frustum of a cone',
    'from wet to fired',
    'wall',
    'base',
  ])
    expect(guide, said).toContain(said);
});

test('a set of five pages is a valid file under 300 kB with its fonts inside, whatever script its words are in', async () => {
  const words = {
    maker: 'مشغل الفخار',
    licence: '手作りの器のために',
    howTo: 'Ολόκληρο φύλλο 6 mm. Лист толщиной 6 мм. 흙판 6 mm.',
  };
  const { template, bytes, seen } = await printed({ ...vase, name: 'Βάζο 花瓶' }, 'A4', words);
  expect(seen.pages).toBe(pagesOf(template));
  expect(seen.pages).toBeGreaterThanOrEqual(5);
  expect(bytes).toBeLessThan(300_000);
  expect(seen.mended).toBe(false);
  expect(seen.fonts().length).toBeGreaterThan(5);
  for (const { inside } of seen.fonts()) expect(inside).toBe(true);
  expect(seen.text(0)).toContain('Βάζο 花瓶');
});

test('a roll that is longer than a file can be is refused', () => {
  const template = sheetsOf(
    { form: 'drawing', pieces: [{ name: 'banner', outline: 'M0 0H1900V180H0Z', count: 1 }] },
    'roll 200',
  );
  const long = {
    ...template,
    sheets: {
      ...template.sheets,
      page: { ...template.sheets.page, paper: { name: 'Roll 200 mm', width: 200, height: 6_000 } },
    },
  };
  expect(() => drawTemplate(long, { maker: '' })).toThrow(/6000 mm long on this roll/);
});
