/** Strips for handles, which may taper. */
import type { Piece } from '../piece.ts';
import type { Measured } from '../spec/spec.ts';
import { piece } from './named-piece.ts';

export function handles({ handle }: Measured): Piece[] {
  if (!handle) return [];
  const { length, width, endWidth = width, count = 1 } = handle;
  const [wide, narrow] = [width / 2, endWidth / 2];
  const outline = [
    [-wide, 0],
    [wide, 0],
    [narrow, length],
    [-narrow, length],
  ] as const;
  const side = Math.hypot(length, wide - narrow);
  const [a, b, c, d] = outline;
  return [
    piece('handle', {
      count,
      outline,
      lines: [
        {
          pen: 'mark',
          points: [
            [0, 0],
            [0, length],
          ],
        },
      ],
      edges: [
        { name: 'end', length: width, along: [a, b] },
        { name: 'right side', length: side, along: [b, c] },
        { name: 'other end', length: endWidth, along: [c, d] },
        { name: 'left side', length: side, along: [d, a] },
      ],
    }),
  ];
}
