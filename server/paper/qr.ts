/** QR codes (ISO/IEC 18004), as rows of dark modules. */
import { encode } from 'uqr';

export interface Qr {
  /** Modules of a side. */
  readonly size: number;
  /** Dark modules that follow each other in a row. */
  readonly boxes: readonly (readonly [x: number, y: number, width: number])[];
}

export function qrCode(text: string, level: 'L' | 'M' | 'Q' | 'H' = 'M'): Qr {
  const { data, size } = encode(text, { ecc: level, border: 0 });
  const boxes: [number, number, number][] = [];
  for (let y = 0; y < size; y++) {
    for (let x = 0; x < size; x++) {
      if (!data[y]![x]) continue;
      const last = boxes.at(-1);
      if (last && last[1] === y && last[0] + last[2] === x) last[2]++;
      else boxes.push([x, y, 1]);
    }
  }
  return { size, boxes };
}
