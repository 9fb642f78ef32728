import type { KilnFacts, PlaceRow } from '../api/studio.ts';
import { drawings } from '../words/drawings.ts';
import { firing as words } from '../words/kilns.ts';
import { byShelf } from './load.ts';

interface Placed {
  readonly shelf: number | null;
  readonly mark: string | null;
  readonly count: number;
  readonly piece: string;
  readonly size?: PlaceRow['size'];
}

/** What is drawn of one lot, in mm: its left edge, and a box as wide and high as one of its pieces. */
export interface Box {
  readonly x: number;
  readonly width: number;
  readonly height: number;
  /** Its size is noted; else it is drawn as a usual one, dashed. */
  readonly noted: boolean;
}

/** A piece whose size is not noted. */
const USUAL = { width: 90, height: 80 };
/** The inside of a kiln whose measures are not noted. */
const INSIDE = { width: 450, height: 450 };

/**
 * The lots on one shelf as they are seen from the side. Those for which there is no room side by side
 * stand before and behind one another, so they overlap; none is made smaller.
 * @param width of the kiln's inside, mm
 */
export function boxes(puts: readonly Pick<Placed, 'size'>[], width: number, room: number): readonly Box[] {
  const sizes = puts.map(({ size }) => ({
    width: Math.min(width, size?.width ?? size?.height ?? USUAL.width),
    height: Math.min(room, size?.height ?? USUAL.height),
    noted: size?.width !== undefined && size.height !== undefined,
  }));
  const last = sizes.at(-1)?.width ?? 0;
  const sum = sizes.reduce((total, size) => total + size.width, 0);
  // Side by side with even gaps, or drawn together until the last one ends at the wall.
  const gap = sum <= width ? (width - sum) / (sizes.length + 1) : 0;
  const squeeze = sum > width && sum > last ? (width - last) / (sum - last) : 1;
  let x = gap;
  return sizes.map((size) => {
    const box = { ...size, x: Math.min(x, width - size.width) };
    x += size.width * squeeze + gap;
    return box;
  });
}

/** Thickness of a shelf, mm. */
const SLAB = 15;

/** The kiln's load from the side, to scale in mm: shelves on props, one piece of each lot. */
export function KilnSide({
  places,
  kiln,
}: {
  readonly places: readonly Placed[];
  readonly kiln?: KilnFacts | null;
}) {
  const shelved = byShelf(places).filter(({ shelf }) => shelf !== null);
  if (shelved.length === 0) return null;
  const lowest = Math.max(kiln?.shelves ?? 1, ...shelved.map(({ shelf }) => shelf!));
  const width = kiln?.width ?? INSIDE.width;
  const height = Math.max(kiln?.height ?? INSIDE.height, lowest * (SLAB + 40));
  const storey = height / lowest;
  const known = kiln?.width !== undefined && kiln.height !== undefined;
  const margin = 60;
  return (
    <figure class="kiln-side">
      <svg
        viewBox={`${-margin} -20 ${width + margin * 2} ${height + 90}`}
        role="img"
        aria-label={drawings.kiln(shelved.length)}
      >
        <path class="pen" d={`M0 0V${height}H${width}V0`} />
        {shelved.map(({ shelf, puts }) => {
          const floor = shelf! * storey - SLAB;
          return (
            <g key={shelf}>
              <path class="pen" d={`M6 ${floor}H${width - 6}v${SLAB}H6z`} />
              <text class="tick-text" x={-46} y={floor + 6}>
                {shelf}
              </text>
              {boxes(puts, width - 20, storey - SLAB - 6).map((box, n) => {
                const put = puts[n]!;
                return (
                  <path
                    key={put.piece}
                    class={box.noted ? 'pen ware-on-shelf' : 'pen ware-on-shelf dashed'}
                    d={potShape(10 + box.x, floor, box)}
                  >
                    <title>{`${put.mark ?? ''} × ${put.count}`}</title>
                  </path>
                );
              })}
            </g>
          );
        })}
        <path class="pen" d={`M0 ${height + 24}v12h100v-12`} />
        <text class="tick-text" x={112} y={height + 44}>
          {words.hundred}
        </text>
      </svg>
      <figcaption class="small soft">{known ? words.toScale : words.noScale}</figcaption>
    </figure>
  );
}

/** A bowl-sided outline that stands on its foot. */
function potShape(x: number, floor: number, { width, height }: Box): string {
  const foot = width * 0.18;
  return `M${x.toFixed(1)} ${(floor - height).toFixed(1)}h${width.toFixed(1)}l${(-foot).toFixed(1)} ${height.toFixed(1)}h${(2 * foot - width).toFixed(1)}z`;
}
