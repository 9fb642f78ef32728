/** What is looked at before a set of sheets is given out: plain sentences that hold or do not. */
import type { Development, Edge, Piece, Point } from '../piece.ts';
import { firstCrossing } from '../shape/cross.ts';
import { lengthOf } from '../shape/measure.ts';
import { isRoll, windowOf } from './paper.ts';
import { STROKES, THINNEST } from './pens.ts';
import type { Check, Page, Plane, Sheet } from './sheet.ts';

/** mm by which edges that meet may differ. */
export const MEETING = 0.2;

export function checksOf(
  made: Development,
  planes: readonly Plane[],
  page: Page,
  sheets: readonly Sheet[],
): Check[] {
  return [
    everyPiece(made.pieces, planes, sheets),
    insideMargins(page, sheets),
    thickEnough(),
    ...edgesMeet(made.pieces),
    ...closes(made.pieces),
  ];
}

const check = (wrong: string | undefined, right: string): Check =>
  wrong === undefined ? { passed: true, sentence: right } : { passed: false, sentence: wrong };

/** Every stretch of every line of every piece is on some page. */
function everyPiece(pieces: readonly Piece[], planes: readonly Plane[], sheets: readonly Sheet[]): Check {
  const placed = planes.flatMap((plane, at) =>
    plane.placed.flatMap((nest) => [nest, ...(nest.within ?? [])].map((piece) => ({ piece, plane: at }))),
  );
  const lost = pieces.find(({ name }) => !placed.some(({ piece }) => piece.name === name));
  if (lost) return check(`“${lost.name}” is on no page.`, '');
  const cutOff = placed.find(({ piece, plane }) => {
    const shown = sheets.filter((sheet) => sheet.plane === plane);
    return ![piece.outline, ...piece.holes, ...piece.lines.map(({ points }) => points)].every((points) =>
      points.every((point) => shown.some((sheet) => shows(sheet, point))),
    );
  });
  return check(
    cutOff && `Part of “${cutOff.piece.name}” is on no page.`,
    `Every piece is on a page, whole: ${placed.length} ${placed.length === 1 ? 'piece' : 'pieces'} on ${sheets.length} ${sheets.length === 1 ? 'page' : 'pages'}.`,
  );
}

const NEAR = 1e-6;

function shows({ origin, window }: Sheet, [x, y]: Point): boolean {
  const [dx, dy] = [x - origin[0], y - origin[1]];
  return dx >= -NEAR && dy >= -NEAR && dx <= window.width + NEAR && dy <= window.height + NEAR;
}

function insideMargins(page: Page, sheets: readonly Sheet[]): Check {
  const { paper, margin } = page;
  const window = windowOf(page);
  const out = sheets.find((sheet) =>
    sheet.lines.some(({ points }) =>
      points.some(
        ([x, y]) =>
          x < margin - NEAR ||
          y < margin - NEAR ||
          x > paper.width - margin + NEAR ||
          (!isRoll(paper) && y > window.top + window.height + NEAR),
      ),
    ),
  );
  return check(
    out && `A line on page ${out.page} runs into the ${margin} mm that printers leave blank.`,
    `No line runs into the ${margin} mm at the paper’s edge that printers leave blank.`,
  );
}

function thickEnough(): Check {
  const thin = Object.entries(STROKES).find(([, { width }]) => width < THINNEST);
  return check(
    thin && `The ${thin[0]} line is ${thin[1].width} mm wide, too thin to be sure to print.`,
    `Every line is at least ${THINNEST} mm wide.`,
  );
}

/** The two sides of each joint, summed over all pieces of a size. */
function edgesMeet(pieces: readonly Piece[]): Check[] {
  const joints = new Map<string, { a: number; b: number }>();
  for (const { inSet, count, edges } of pieces)
    for (const { joins } of edges) {
      if (!joins) continue;
      const key = inSet ? `${joins.joint}, ${inSet.size}` : joins.joint;
      const sums = joints.get(key) ?? { a: 0, b: 0 };
      joints.set(key, { ...sums, [joins.side]: sums[joins.side] + joins.length * count });
    }
  return [...joints].map(([joint, { a, b }]) =>
    check(
      Math.abs(a - b) > MEETING
        ? `The two edges of the joint “${joint}” differ by ${Math.abs(a - b).toFixed(2)} mm.`
        : undefined,
      `The two edges of the joint “${joint}” are equally long: ${a.toFixed(1)} mm.`,
    ),
  );
}

/** Outlines can be cut out, and what is drawn is as long as the form says. */
function closes(pieces: readonly Piece[]): Check[] {
  return pieces.map((piece) => {
    const off = piece.edges.find((edge) => offBy(edge) > MEETING);
    const crosses = firstCrossing(piece.outline) !== undefined;
    const wrong = crosses
      ? `The outline of “${piece.name}” crosses itself.`
      : off &&
        `The edge “${off.name}” of “${piece.name}” is drawn ${offBy(off).toFixed(2)} mm off its length.`;
    return check(wrong, `The outline of “${piece.name}” closes, and its edges are as long as the form’s.`);
  });
}

const offBy = ({ along, closed, length }: Edge): number => Math.abs(lengthOf(along, closed) - length);
