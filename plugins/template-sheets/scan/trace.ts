/** Outlines of the paper pieces in a picture, traced between the pixels and brought to mm. */
import { contours } from 'd3-contour';
import type { Point } from '../piece.ts';
import { inside } from '../shape/inside.ts';
import { areaOf, signedArea } from '../shape/measure.ts';
import { blurred, type Grey } from './grey.ts';
import { type Homography, mapped } from './homography.ts';
import { levelled } from './level.ts';

/** mm²: crumbs are not pieces. */
const LEAST_AREA = 400;

export interface Traced {
  /** Closed, mm, in fine steps. */
  readonly outline: readonly Point[];
  readonly holes: readonly (readonly Point[])[];
}

/**
 * @param toMm from the picture's pixels to mm
 * @param reference corners of the ruler or sheet of known size in the picture: it is no piece
 */
export function tracedPieces(picture: Grey, toMm: Homography, reference: readonly Point[]): Traced[] {
  const soft = blurred(picture, 1, 3);
  const { over, steepness, edge } = levelled(soft);
  const found = contours().size([soft.width, soft.height]).thresholds([0])(Array.from(over))[0]!;
  const sharp = (ring: readonly Point[]): boolean => {
    const along = ring.filter((_, at) => at % 3 === 0);
    const steep = along.filter(([x, y]) => nearby(steepness, soft, x, y) > 0.8 * edge);
    return steep.length > 0.6 * along.length;
  };
  const brought = (ring: readonly Point[]): Point[] => ring.slice(0, -1).map((point) => mapped(toMm, point));
  return (found.coordinates as unknown as readonly (readonly Point[][])[]).flatMap((polygon) => {
    const [ring, ...holes] = polygon.map((points) => points as readonly Point[]);
    if (!ring || touchesBorder(ring, soft) || onReference(ring, reference)) return [];
    const outline = brought(ring);
    if (areaOf(outline) < LEAST_AREA || !sharp(ring)) return [];
    const kept = holes.filter((hole) => areaOf(brought(hole)) >= LEAST_AREA / 8 && sharp(hole));
    return [{ outline: clockwise(outline), holes: kept.map((hole) => clockwise(brought(hole))) }];
  });
}

const clockwise = (ring: Point[]): Point[] => (signedArea(ring) < 0 ? ring.reverse() : ring);

/** The sharpest change within a pixel or so. */
function nearby(steepness: Float32Array, { width, height }: Grey, x: number, y: number): number {
  let most = 0;
  for (let dy = -1; dy <= 1; dy++)
    for (let dx = -1; dx <= 1; dx++) {
      const column = Math.min(width - 1, Math.max(0, Math.floor(x) + dx));
      const row = Math.min(height - 1, Math.max(0, Math.floor(y) + dy));
      most = Math.max(most, steepness[row * width + column]!);
    }
  return most;
}

const touchesBorder = (ring: readonly Point[], { width, height }: Grey): boolean =>
  ring.some(([x, y]) => x < 2 || y < 2 || x > width - 2 || y > height - 2);

/** Mostly on the sheet of known size. */
function onReference(ring: readonly Point[], reference: readonly Point[]): boolean {
  if (reference.length < 3) return false;
  const [x, y] = reference.reduce(
    ([sx, sy], [px, py]) => [sx + px / reference.length, sy + py / reference.length],
    [0, 0],
  );
  return inside(ring, [x!, y!]) && areaOf(ring) < 1.5 * areaOf(reference);
}
