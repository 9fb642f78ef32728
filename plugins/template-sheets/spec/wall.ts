/** The clay's thickness: where it was measured, and how far the middle of the wall lies from there. */
import type { Measured } from './spec.ts';

export interface Wall {
  /** mm; 0 when the thickness was not given. */
  readonly thick: number;
  /**
   * Distance square to the wall from the measured face to its middle: negative inwards (measured outside),
   * positive outwards (measured inside), 0 in the middle.
   */
  readonly toMiddle: number;
}

export function wallOf({ thickness }: Pick<Measured, 'thickness'>): Wall {
  if (thickness === undefined) return { thick: 0, toMiddle: 0 };
  const { wall, measured } =
    typeof thickness === 'number' ? { wall: thickness, measured: 'outside' as const } : thickness;
  const sign = { outside: -1, middle: 0, inside: 1 }[measured];
  return { thick: wall, toMiddle: (sign * wall) / 2 };
}

export interface Seam {
  readonly joint: 'bevel' | 'butt';
  /** mm of clay beyond the true edge. */
  readonly allowance: number;
}

/** A bevel with no width of its own is cut at 45°, so that it is as wide as the wall is thick. */
export function seamOf(seam: string | number | Seam | undefined, wall: Wall): Seam {
  if (seam === undefined || seam === 'butt') return { joint: 'butt', allowance: 0 };
  if (seam === 'bevel') return { joint: 'bevel', allowance: wall.thick };
  return typeof seam === 'number' ? { joint: 'bevel', allowance: seam } : (seam as Seam);
}

export type BaseKind = 'none' | 'under' | 'inside';

export const baseOf = (base: boolean | 'under' | 'inside' | undefined): BaseKind =>
  base === undefined || base === false ? 'none' : base === true ? 'under' : base;
