/**
 * A part of a sphere about an upright axis, as bowls and balls are: how far from the axis the clay is after s mm
 * along the wall. The middle of a wall is a sphere about the same centre.
 */
export interface Profile {
  /** Radius of the sphere. */
  readonly radius: number;
  /** Angles from the lowest point up (radians) between which the wall runs. */
  readonly from: number;
  readonly to: number;
}

export const lengthAlong = ({ radius, from, to }: Profile): number => radius * (to - from);

/** Distance from the axis, s mm along the wall from `from`. */
export const across = ({ radius, from }: Profile, s: number): number => radius * Math.sin(from + s / radius);

/** How fast that distance grows along the wall. */
export const spread = ({ radius, from }: Profile, s: number): number => Math.cos(from + s / radius);

/** Area of the zone: 2πR times its height (Archimedes). */
export const zoneArea = ({ radius, from, to }: Profile): number =>
  2 * Math.PI * radius * radius * (Math.cos(from) - Math.cos(to));

/** Simpson's rule on 512 parts: far closer than any printer for the smooth curves it is used on. */
export function integral(of: (s: number) => number, from: number, to: number): number {
  const PARTS = 512;
  const step = (to - from) / PARTS;
  let sum = of(from) + of(to);
  for (let at = 1; at < PARTS; at++) sum += (at % 2 === 1 ? 4 : 2) * of(from + at * step);
  return (sum * step) / 3;
}
