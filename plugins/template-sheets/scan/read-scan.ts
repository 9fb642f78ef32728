/** A photo or scan of paper templates as a spec of drawn pieces in mm. */
import type { Point } from '../piece.ts';
import { areaOf, boxOf } from '../shape/measure.ts';
import { pointsMoved, shift } from '../shape/move.ts';
import type { Of } from '../spec/spec.ts';
import { cleanPath } from './clean.ts';
import type { Grey } from './grey.ts';
import { fromFour, fromTwo, type Homography } from './homography.ts';
import { tracedPieces } from './trace.ts';

/** What of known size lies in the picture. Points are pixels from the upper left. */
export type Known =
  /** Two points and their distance: for a scan, or a picture from straight above. */
  | { readonly points: readonly [Point, Point]; readonly length: number }
  /** A sheet's or ruler's corners in order around, the first side `width` long; takes the perspective out. */
  | {
      readonly corners: readonly [Point, Point, Point, Point];
      readonly width: number;
      readonly height: number;
    };

export type ScanRead =
  | { readonly spec: Of<'drawing'>; readonly mmPerPixel: number }
  | { readonly wrong: readonly string[] };

const COARSEST = 1;

/** @param tolerance mm by which the clean curves may leave what was traced */
export function readScan(picture: Grey, known: Known, tolerance = 0.2): ScanRead {
  const toMm = mapOf(known);
  if (typeof toMm === 'string') return { wrong: [toMm] };
  const mmPerPixel = coarseness(known);
  if (mmPerPixel > COARSEST)
    return {
      wrong: [
        `A pixel of this picture is ${mmPerPixel.toFixed(1)} mm; take it nearer or larger, for 1 mm or less.`,
      ],
    };
  const reference = 'corners' in known ? known.corners : [];
  const pieces = tracedPieces(picture, toMm, reference);
  if (pieces.length === 0)
    return {
      wrong: [
        'No piece of paper was found whole in the picture. It should lie on something darker, clear of the edge.',
      ],
    };
  if (pieces.length > 100)
    return {
      wrong: [`${pieces.length} shapes were found; use a plainer background, with at most 100 pieces on it.`],
    };
  const sorted = [...pieces].sort((a, b) => areaOf(b.outline) - areaOf(a.outline));
  return {
    mmPerPixel,
    spec: {
      form: 'drawing',
      pieces: sorted.map(({ outline, holes }, at) => {
        const box = boxOf(outline);
        const home = (ring: readonly Point[]) =>
          cleanPath(pointsMoved(ring, shift(-box.left, -box.top)), tolerance);
        return {
          name: `piece ${at + 1}`,
          outline: home(outline),
          ...(holes.length > 0 ? { holes: holes.map(home) } : {}),
        };
      }),
    },
  };
}

function mapOf(known: Known): Homography | string {
  if ('points' in known) {
    const [a, b] = known.points;
    if (!(known.length > 0) || Math.hypot(b[0] - a[0], b[1] - a[1]) < 20)
      return 'The two points should lie well apart, with a distance of more than 0 mm between them.';
    return fromTwo(known.points, known.length);
  }
  const { corners, width, height } = known;
  if (!(width > 0) || !(height > 0)) return 'The sheet’s width and height should be more than 0 mm.';
  const flat: readonly Point[] = [
    [0, 0],
    [width, 0],
    [width, height],
    [0, height],
  ];
  const folded = areaOf(corners) < 400 || !convex(corners);
  return (
    (folded ? undefined : fromFour(corners, flat)) ??
    'The four corners should go once around the sheet, from its upper left, and not lie in a line.'
  );
}

function convex(corners: readonly Point[]): boolean {
  const turns = corners.map((b, at) => {
    const [a, c] = [corners[(at + 3) % 4]!, corners[(at + 1) % 4]!];
    return Math.sign((b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]));
  });
  return turns.every((turn) => turn === turns[0] && turn !== 0);
}

function coarseness(known: Known): number {
  if ('points' in known)
    return (
      known.length /
      Math.hypot(known.points[1][0] - known.points[0][0], known.points[1][1] - known.points[0][1])
    );
  return Math.sqrt((known.width * known.height) / areaOf(known.corners));
}
