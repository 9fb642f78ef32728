import { useEffect, useRef, useState } from 'preact/hooks';
import type { Point } from '../../plugins/template-sheets/piece.ts';
import { announce } from '../app/announce.ts';
import { templates as words } from '../words/templates.ts';
import { movedTo, type Spot } from './known-size.ts';
import { Look } from './look.tsx';

interface Props {
  readonly picture: ImageBitmap;
  readonly spots: readonly Spot[];
  readonly onSpots: (spots: readonly Spot[]) => void;
}

const STEPS: Readonly<Record<string, Point>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};
/** Pixels at a step, with the shift key held. */
const LONG_STEP = 10;

/**
 * A picture with marks on it, each brought to its place by a tap, by dragging it, or with the arrow keys.
 * What lies under the mark is shown larger beside the finger.
 */
export function MarkBoard({ picture, spots, onSpots }: Props) {
  const { width, height } = picture;
  const canvas = useRef<HTMLCanvasElement>(null);
  const [chosen, choose] = useState(0);
  const drag = useRef<Point | undefined>(undefined);
  useEffect(() => canvas.current?.getContext('2d')?.drawImage(picture, 0, 0), [picture]);
  const two = spots.length === 2;
  const put = (nth: number, at: Point) => onSpots(movedTo(spots, nth, at, width, height));
  const tell = (nth: number, [x, y]: Point) => announce(words.markAt(nth + 1, two, x, y));
  /** The picture's pixel under a finger. */
  const under = (event: MouseEvent): Point => {
    const place = canvas.current!.getBoundingClientRect();
    return [
      ((event.clientX - place.left) * width) / place.width,
      ((event.clientY - place.top) * height) / place.height,
    ];
  };
  const tap = (event: MouseEvent) => {
    const at = under(event);
    put(chosen, at);
    tell(chosen, at);
    const next = spots.findIndex(({ placed }, nth) => !placed && nth !== chosen);
    if (next >= 0) choose(next);
  };
  const nudge = (nth: number, [dx, dy]: Point) => {
    const [x, y] = spots[nth]!.at;
    const at: Point = [x + dx, y + dy];
    put(nth, at);
    tell(nth, at);
  };
  const onKey = (nth: number, event: KeyboardEvent) => {
    const step = STEPS[event.key];
    if (!step) return;
    event.preventDefault();
    const by = event.shiftKey ? LONG_STEP : 1;
    nudge(nth, [step[0] * by, step[1] * by]);
  };
  return (
    <>
      <div class="mark-board">
        <canvas ref={canvas} width={width} height={height} onClick={tap} />
        {spots.map(({ at, placed }, nth) => (
          <button
            key={nth}
            type="button"
            class={nth === chosen ? 'mark chosen' : 'mark'}
            aria-label={`${words.markAt(nth + 1, two, ...at)}${placed ? '' : `, ${words.notPlaced}`}`}
            style={{ left: `${(100 * at[0]) / width}%`, top: `${(100 * at[1]) / height}%` }}
            onFocus={() => choose(nth)}
            onKeyDown={(event) => onKey(nth, event)}
            onPointerDown={(event) => {
              choose(nth);
              event.currentTarget.setPointerCapture(event.pointerId);
              const [x, y] = under(event);
              // The finger need not lie on the very point: how it took the mark is how it leads it.
              drag.current = [at[0] - x, at[1] - y];
            }}
            onPointerMove={(event) => {
              if (!drag.current) return;
              const [x, y] = under(event);
              put(nth, [x + drag.current[0], y + drag.current[1]]);
            }}
            onLostPointerCapture={() => {
              drag.current = undefined;
              tell(nth, spots[nth]!.at);
            }}
          >
            <svg viewBox="-24 -24 48 48" aria-hidden="true">
              <circle r="14" />
              <path d="M-22 0H-4M4 0H22M0 -22V-4M0 4V22" />
              <text x="15" y="-13">
                {nth + 1}
              </text>
            </svg>
          </button>
        ))}
        <Look picture={picture} at={spots[chosen]?.at ?? [0, 0]} />
      </div>
      <fieldset class="nudge">
        <legend class="soft small">{words.nudge(chosen + 1, two)}</legend>
        {Object.entries(STEPS).map(([key, step]) => (
          <button
            key={key}
            type="button"
            aria-label={words.nudges[key as keyof typeof words.nudges]}
            onClick={() => nudge(chosen, step)}
          >
            <svg viewBox="-12 -12 24 24" width="24" height="24" aria-hidden="true">
              <path d={ARROW} transform={`rotate(${TURNS[key]})`} />
            </svg>
          </button>
        ))}
      </fieldset>
    </>
  );
}

const ARROW = 'M-8 0H8M2 -6L8 0L2 6';
const TURNS: Readonly<Record<string, number>> = {
  ArrowRight: 0,
  ArrowDown: 90,
  ArrowLeft: 180,
  ArrowUp: 270,
};
