/** The maths of the figures: from values to places on the paper, and the ticks between. */

/** Round steps of 1, 2 and 5 times a power of ten, about `about` of them, from `low` to at least `high`. */
export function ticks(low: number, high: number, about = 4): readonly number[] {
  if (!(high > low)) return [low];
  const rough = (high - low) / about;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((n) => n * power).find((n) => n >= rough * 0.999) ?? 10 * power;
  const first = Math.floor(low / step + 1e-9);
  const count = Math.ceil((high - first * step) / step - 1e-9);
  return Array.from({ length: count + 1 }, (_, n) => Number(((first + n) * step).toPrecision(12)));
}

/** A straight scale from values to a span on paper. */
export function linear(low: number, high: number, from: number, to: number): (value: number) => number {
  const span = high - low || 1;
  return (value) => from + ((value - low) / span) * (to - from);
}

export interface Extent {
  readonly low: number;
  readonly high: number;
}

/** Axes start where honesty needs: counts and rates at 0, other lines about their values. */
export function extent(values: readonly number[], fromZero: boolean): Extent {
  const finite = values.filter(Number.isFinite);
  if (finite.length === 0) return { low: 0, high: 1 };
  const low = Math.min(...finite, ...(fromZero ? [0] : []));
  const high = Math.max(...finite, ...(fromZero ? [0] : []));
  return high > low ? { low, high } : { low: fromZero ? Math.min(low, 0) : low - 1, high: high + 1 };
}

/** SVG path of points joined by straight lines; a gap where there is no value. */
export function linePath(points: readonly (readonly [number, number] | undefined)[]): string {
  let pen = false;
  return points
    .map((point) => {
      if (!point) {
        pen = false;
        return '';
      }
      const step = `${pen ? 'L' : 'M'}${point[0].toFixed(1)} ${point[1].toFixed(1)}`;
      pen = true;
      return step;
    })
    .join('');
}

/** Where each part of a row starts and ends, as fractions of the widest row. */
export function partSpans(parts: readonly number[], widest: number): readonly { from: number; to: number }[] {
  let at = 0;
  return parts.map((part) => {
    const from = at;
    at += widest > 0 ? part / widest : 0;
    return { from, to: at };
  });
}

/** Below this many pieces a rate is drawn as an open dot (common practice, no source). */
export const FEW_PIECES = 30;

/** A fixed number of days from one day to another. */
export const dayNumber = (day: string): number => Date.parse(`${day.slice(0, 10)}T00:00:00Z`) / 86_400_000;
