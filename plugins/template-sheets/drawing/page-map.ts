/** A small picture of how the pages lie together. */
import type { Mark } from '../../../server/contract/paper.ts';
import { boxOf } from '../shape/measure.ts';
import type { MapOfPlane } from '../sheets/sheet.ts';
import { pathOf, words } from './ink.ts';

interface Room {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/**
 * @param here the page that the map stands on: it is shaded
 * @param named whether pieces are named, where there is room
 */
export function mapMarks(
  map: MapOfPlane,
  room: Room,
  { here, named = false }: { here?: number; named?: boolean } = {},
): Mark[] {
  const scale = Math.min(room.width / map.width, room.height / map.height, 1);
  const x = room.x + (room.width - map.width * scale) / 2;
  const y = room.y + (room.height - map.height * scale) / 2;
  // Inside the group one mm on paper is so long.
  const one = 1 / scale;
  const least = Math.min(...map.pages.map((page) => Math.min(page.width, page.height)));
  const marks: Mark[] = [
    ...map.pages.map(
      (page): Mark => ({
        mark: 'box',
        x: page.left,
        y: page.top,
        width: page.width,
        height: page.height,
        pen: { width: Math.min(50, 0.15 * one) },
        ...(page.page === here ? { fill: 0.82 } : {}),
      }),
    ),
    ...map.pieces.map(
      (piece): Mark => ({
        mark: 'path',
        d: pathOf(thinned(piece.outline), true),
        pen: { width: Math.min(50, 0.25 * one), shade: 0.35 },
      }),
    ),
    ...map.pages.map((page) => {
      const size = Math.min(least * 0.42, 7 * one, 400);
      const spot = [page.left + page.width / 2, page.top + page.height / 2] as const;
      return words(String(page.page), spot[0], spot[1], size, {
        weight: 'bold',
        align: 'middle',
        vertical: 'middle',
      });
    }),
    ...(named ? map.pieces.flatMap((piece) => nameMarks(piece, one)) : []),
  ];
  const pages = map.pages.map(({ page }) => page).join(', ');
  const title =
    here === undefined
      ? `How pages ${pages} lie together: ${map.pieces.map(({ name }) => name).join('; ')}`
      : `Where page ${here} lies among pages ${pages}`;
  return [{ mark: 'group', x, y, scale, marks, title: title.slice(0, 500) }];
}

function nameMarks({ name, outline, middle }: MapOfPlane['pieces'][number], one: number): Mark[] {
  const box = boxOf(outline);
  const width = Math.min(box.right - box.left, 60 * one);
  const size = 2.4 * one;
  if (width < 8 * one) return [];
  const rest = {
    width,
    height: size * 1.3,
    fit: 'shrink',
    least: 1.6 * one,
    align: 'middle',
    vertical: 'middle',
  } as const;
  return [words(name, middle[0] - width / 2, middle[1] + 4 * one, size, rest)];
}

/** A map needs no more than some hundred points. */
function thinned<T>(points: readonly T[]): readonly T[] {
  const step = Math.max(1, Math.floor(points.length / 160));
  return points.filter((_, at) => at % step === 0);
}
