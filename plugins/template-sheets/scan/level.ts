/**
 * The shade that parts paper from table, at every place of the picture. Shadow dims both, so no one shade will do; but
 * along the paper's edge the middle of the step is right whatever the light. Those shades are taken where the picture
 * changes sharply and spread over the rest (Yanowitz and Bruckstein 1989). A shadow's own edge is soft, and is passed by.
 */
import type { Grey } from './grey.ts';

export interface Levelled {
  /** Above 0 on paper, below on the table. */
  readonly over: Float32Array;
  /** Change from pixel to pixel as a share of the shade: high along paper's edges. */
  readonly steepness: Float32Array;
  /** What counts as an edge. */
  readonly edge: number;
}

export function levelled(grey: Grey): Levelled {
  const { width, height, shades } = grey;
  const change = new Float32Array(shades.length);
  for (let y = 1; y < height - 1; y++)
    for (let x = 1; x < width - 1; x++) {
      const at = y * width + x;
      change[at] =
        Math.hypot(shades[at + 1]! - shades[at - 1]!, shades[at + width]! - shades[at - width]!) / 2;
    }
  const steepness = change.map((by, at) => by / (shades[at]! + 8));
  const edge = edgeFrom(steepness);
  const on = ridge(change, steepness, grey, edge);
  const level = spreadOut(middles(grey, on), on, grey);
  return { over: shades.map((shade, at) => shade - level[at]!), steepness, edge };
}

/** Pixels to either side within which a step from table to paper is over. */
const STEP = 3;

/** Least difference of paper and table as a share of their sum: a fifth is pale card on a pale board. */
const CONTRAST = 0.18;

/** Half way between the darkest and the lightest about each pixel of the edge; where they hardly differ it is none. */
function middles({ width, height, shades }: Grey, on: Uint8Array): Float32Array {
  const out = new Float32Array(shades.length);
  for (let y = STEP; y < height - STEP; y++)
    for (let x = STEP; x < width - STEP; x++) {
      if (!on[y * width + x]) continue;
      let [low, high] = [255, 0];
      for (let row = y - STEP; row <= y + STEP; row++)
        for (let column = x - STEP; column <= x + STEP; column++) {
          const shade = shades[row * width + column]!;
          if (shade < low) low = shade;
          if (shade > high) high = shade;
        }
      if (high - low < CONTRAST * (high + low)) on[y * width + x] = 0;
      else out[y * width + x] = (low + high) / 2;
    }
  return out;
}

/** Well above what noise does: noise is what most pixels show. */
function edgeFrom(steepness: Float32Array): number {
  const some = steepness.filter((_, at) => at % 97 === 0).sort();
  const usual = some[Math.floor(some.length / 2)] ?? 0;
  return Math.max(0.08, 4 * usual);
}

/** Pixels where the change is sharpest across the edge. */
function ridge(
  change: Float32Array,
  steepness: Float32Array,
  { width, height }: Grey,
  edge: number,
): Uint8Array {
  const on = new Uint8Array(change.length);
  for (let y = STEP; y < height - STEP; y++)
    for (let x = STEP; x < width - STEP; x++) {
      const at = y * width + x;
      if (steepness[at]! < edge) continue;
      const here = change[at]!;
      const sideways = here >= change[at - 1]! && here >= change[at + 1]!;
      const upright = here >= change[at - width]! && here >= change[at + width]!;
      if (sideways || upright) on[at] = 1;
    }
  return on;
}

interface Layer {
  readonly width: number;
  readonly height: number;
  readonly sum: Float32Array;
  readonly weight: Float32Array;
}

/** Known values gathered into ever coarser layers, then handed down to where nothing is known (push and pull). */
function spreadOut(values: Float32Array, known: Uint8Array, { width, height }: Grey): Float32Array {
  const layers: Layer[] = [
    {
      width,
      height,
      sum: values.map((value, at) => (known[at] ? value : 0)),
      weight: Float32Array.from(known),
    },
  ];
  while (Math.max(layers.at(-1)!.width, layers.at(-1)!.height) > 1) layers.push(coarser(layers.at(-1)!));
  let filled = new Float32Array([layers.at(-1)!.sum[0]! / Math.max(1e-6, layers.at(-1)!.weight[0]!)]);
  for (let at = layers.length - 2; at >= 0; at--) filled = handedDown(layers[at]!, layers[at + 1]!, filled);
  return filled;
}

function coarser(fine: Layer): Layer {
  const [width, height] = [Math.ceil(fine.width / 2), Math.ceil(fine.height / 2)];
  const sum = new Float32Array(width * height);
  const weight = new Float32Array(width * height);
  for (let y = 0; y < fine.height; y++)
    for (let x = 0; x < fine.width; x++) {
      const to = (y >> 1) * width + (x >> 1);
      sum[to]! += fine.sum[y * fine.width + x]!;
      weight[to]! += fine.weight[y * fine.width + x]!;
    }
  for (let at = 0; at < weight.length; at++)
    if (weight[at]! > 1) {
      sum[at] = sum[at]! / weight[at]!;
      weight[at] = 1;
    }
  return { width, height, sum, weight };
}

function handedDown(fine: Layer, coarse: Layer, filled: Float32Array): Float32Array<ArrayBuffer> {
  const out = new Float32Array(fine.width * fine.height);
  for (let y = 0; y < fine.height; y++) {
    const v = Math.min(coarse.height - 1, Math.max(0, (y - 0.5) / 2));
    const [y0, fy] = [Math.floor(v), v - Math.floor(v)];
    const y1 = Math.min(coarse.height - 1, y0 + 1);
    for (let x = 0; x < fine.width; x++) {
      const u = Math.min(coarse.width - 1, Math.max(0, (x - 0.5) / 2));
      const [x0, fx] = [Math.floor(u), u - Math.floor(u)];
      const x1 = Math.min(coarse.width - 1, x0 + 1);
      const from = (row: number, column: number): number => filled[row * coarse.width + column]!;
      const smooth =
        (from(y0, x0) * (1 - fx) + from(y0, x1) * fx) * (1 - fy) +
        (from(y1, x0) * (1 - fx) + from(y1, x1) * fx) * fy;
      const at = y * fine.width + x;
      const share = Math.min(1, fine.weight[at]!);
      out[at] = share > 0 ? fine.sum[at]! + (1 - share) * smooth : smooth;
    }
  }
  return out;
}
