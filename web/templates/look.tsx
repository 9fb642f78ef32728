import { useEffect, useRef } from 'preact/hooks';
import type { Point } from '../../plugins/template-sheets/piece.ts';

/** Pixels of the picture across the glass, and of the screen for each of them. */
const ACROSS = 33;
const TIMES = 4;
const SIDE = ACROSS * TIMES;

/** What lies about a point, larger, with the point in the middle; in a corner where the finger is not. */
export function Look({ picture, at }: { readonly picture: ImageBitmap; readonly at: Point }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const context = canvas.current?.getContext('2d');
    if (!context) return;
    const [x, y] = at;
    context.imageSmoothingEnabled = false;
    context.clearRect(0, 0, SIDE, SIDE);
    const from = [x - ACROSS / 2, y - ACROSS / 2] as const;
    context.drawImage(picture, ...from, ACROSS, ACROSS, 0, 0, SIDE, SIDE);
    // Dark on light, so that it is seen on paper and on the table.
    for (const [colour, width] of [
      ['#ffffff', 5],
      ['#a3401a', 2],
    ] as const) {
      context.strokeStyle = colour;
      context.lineWidth = width;
      context.beginPath();
      for (const [a, b] of [
        [0, SIDE / 2 - 10],
        [SIDE / 2 + 10, SIDE],
      ] as const) {
        context.moveTo(a, SIDE / 2);
        context.lineTo(b, SIDE / 2);
        context.moveTo(SIDE / 2, a);
        context.lineTo(SIDE / 2, b);
      }
      context.rect(SIDE / 2 - 2, SIDE / 2 - 2, 4, 4);
      context.stroke();
    }
  }, [picture, at]);
  const right = at[0] < picture.width / 2;
  return <canvas ref={canvas} class={right ? 'look at-right' : 'look'} width={SIDE} height={SIDE} />;
}
