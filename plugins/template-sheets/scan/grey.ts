/** A picture as shades of grey: what the page's canvas gives, and what tests make up. */
export interface Grey {
  readonly width: number;
  readonly height: number;
  /** 0 black … 255 white, row by row. */
  readonly shades: Float32Array;
}

/** From the red, green, blue and opacity of each pixel (ITU-R BT.601 luma). */
export function greyOf(width: number, height: number, rgba: ArrayLike<number>): Grey {
  const shades = new Float32Array(width * height);
  for (let at = 0; at < shades.length; at++)
    shades[at] = 0.299 * rgba[4 * at]! + 0.587 * rgba[4 * at + 1]! + 0.114 * rgba[4 * at + 2]!;
  return { width, height, shades };
}

/** Each pixel the mean of the square around it, `times` over: close to a Gaussian, and takes noise away. */
export function blurred(grey: Grey, reach: number, times: number): Grey {
  let shades = grey.shades;
  for (let pass = 0; pass < times; pass++)
    shades = across(across(shades, grey, reach, true), grey, reach, false);
  return { ...grey, shades };
}

function across(from: Float32Array, { width, height }: Grey, reach: number, sideways: boolean): Float32Array {
  const out = new Float32Array(from.length);
  const [lines, long] = sideways ? [height, width] : [width, height];
  const [step, stride] = sideways ? [1, width] : [width, 1];
  for (let line = 0; line < lines; line++) {
    const start = line * stride;
    let sum = 0;
    for (let at = -reach; at <= reach; at++) sum += from[start + step * Math.min(long - 1, Math.max(0, at))]!;
    for (let at = 0; at < long; at++) {
      out[start + step * at] = sum / (2 * reach + 1);
      sum +=
        from[start + step * Math.min(long - 1, at + reach + 1)]! -
        from[start + step * Math.max(0, at - reach)]!;
    }
  }
  return out;
}
