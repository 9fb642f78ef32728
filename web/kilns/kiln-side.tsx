import { drawings } from '../words/drawings.ts';
import { firing as words } from '../words/kilns.ts';
import { byShelf } from './load.ts';

interface Placed {
  readonly shelf: number | null;
  readonly mark: string | null;
  readonly count: number;
  readonly piece: string;
}

const WIDTH = 320;
const SHELF = 44;
const INSIDE = WIDTH - 40;

/** Boxes on one shelf, side by side, wider for more pieces; together never wider than the shelf. */
export function boxes(
  puts: readonly { readonly count: number }[],
  width: number,
): readonly { x: number; width: number }[] {
  const gap = 4;
  const wished = puts.map((put) => 14 + 5 * Math.min(put.count, 12));
  const sum = wished.reduce((total, w) => total + w + gap, 0);
  const shrink = Math.min(1, width / sum);
  let x = 0;
  return wished.map((w) => {
    const box = { x, width: w * shrink };
    x += (w + gap) * shrink;
    return box;
  });
}

/** The kiln's load from the side: shelves on props, a box for each lot. */
export function KilnSide({ places }: { readonly places: readonly Placed[] }) {
  const shelved = byShelf(places).filter(({ shelf }) => shelf !== null);
  if (shelved.length === 0) return null;
  const height = shelved.length * SHELF + 16;
  return (
    <figure class="kiln-side">
      <svg viewBox={`0 0 ${WIDTH} ${height}`} role="img" aria-label={drawings.kiln(shelved.length)}>
        <path class="pen" d={`M10 2V${height - 4}H${WIDTH - 10}V2`} />
        {shelved.map(({ shelf, puts }, n) => {
          const floor = (n + 1) * SHELF + 4;
          return (
            <g key={shelf}>
              <path class="pen" d={`M16 ${floor}H${WIDTH - 16}M24 ${floor}v6M${WIDTH - 24} ${floor}v6`} />
              <text class="tick-text" x="16" y={floor - 7}>
                {shelf}
              </text>
              {boxes(puts, INSIDE - 16).map((box, at) => {
                const put = puts[at]!;
                return (
                  <path key={put.piece} class="pen" d={potShape(36 + box.x, floor, box.width)}>
                    <title>{`${put.mark ?? ''} × ${put.count}`}</title>
                  </path>
                );
              })}
            </g>
          );
        })}
      </svg>
      <figcaption class="small soft">{words.notToScale}</figcaption>
    </figure>
  );
}

/** A bowl-sided box on the shelf. */
const potShape = (x: number, floor: number, width: number): string =>
  `M${x.toFixed(1)} ${floor - 24}h${width.toFixed(1)}l-3 24h${(6 - width).toFixed(1)}z`;
