/** A believable range on paper: a dot and a bar. Few pieces: an open dot. */
import type { Drawing } from '../../../server/contract/paper.ts';

const WIDTH = 60;
const HEIGHT = 4;
const RADIUS = 1.1;
/** As on the page. */
const FEW_PIECES = 30;

/** Shares 0..1 of the scale. */
interface Interval {
  readonly low: number;
  readonly estimate: number;
  readonly high: number;
  readonly pieces: number;
}

const within = (share: number): number => Math.min(1, Math.max(0, share));

export function interval({ low, estimate, high, pieces }: Interval): Drawing {
  const x = (share: number) => RADIUS + within(share) * (WIDTH - 2 * RADIUS);
  const y = HEIGHT / 2;
  const open = pieces < FEW_PIECES;
  return {
    width: WIDTH,
    height: HEIGHT,
    marks: [
      ...[0, 0.25, 0.5, 0.75, 1].map((at) => ({
        mark: 'line' as const,
        points: [
          [x(at), 0],
          [x(at), HEIGHT],
        ] as [number, number][],
        pen: { width: 0.15, shade: 0.75 },
      })),
      {
        mark: 'line',
        points: [
          [x(low), y],
          [x(high), y],
        ],
        pen: { width: 0.6 },
      },
      { mark: 'circle', x: x(estimate), y, radius: RADIUS, fill: open ? 1 : 0, pen: { width: 0.4 } },
    ],
  };
}
