/**
 * A bowl from one round slab with darts. On a circle s mm from the middle of the slab there are 2πs mm of clay, and the
 * bowl needs only 2πr(s): each of the n petals keeps its share, a half angle of (π/n) r/s, and the darts take the rest.
 * Every circle about the middle, and so the area, is that of the bowl. On a flat foot r = s and nothing is taken.
 */
import type { Edge, Piece, Point } from '../piece.ts';
import { arc, traced } from '../shape/arc.ts';
import { distance } from '../shape/measure.ts';
import { withoutTwins } from './joint.ts';
import { meeting, piece } from './named-piece.ts';
import { across, integral, lengthAlong, type Profile, spread } from './round-profile.ts';

/** Without a flat foot darts would meet in the middle: this share of the slab is pressed into shape uncut. */
const UNCUT = 0.22;
/** From the uncut middle each dart widens to its true width within this share more. */
const WIDENS = 0.04;

const polar = (s: number, angle: number): Point => [s * Math.sin(angle), -s * Math.cos(angle)];

/** The right edge of the petal that points up, from the tip of its dart to the rim. */
interface PetalEdge {
  readonly points: readonly Point[];
  readonly length: number;
  /** Half the petal's angle at the rim. */
  readonly atRim: number;
}

function petalEdge(profile: Profile, foot: number, darts: number): PetalEdge {
  const rim = foot + lengthAlong(profile);
  const half = (s: number): number => ((Math.PI / darts) * across(profile, s - foot)) / s;
  const narrows = (s: number): number =>
    ((Math.PI / darts) * (spread(profile, s - foot) * s - across(profile, s - foot))) / (s * s);
  const tip = foot > 0 ? foot : rim * UNCUT;
  const start = foot > 0 ? foot : rim * (UNCUT + WIDENS);
  const curve = traced((s) => polar(s, half(s)), start, rim);
  const first = polar(tip, Math.PI / darts);
  const length = integral((s) => Math.hypot(1, s * narrows(s)), start, rim) + distance(first, curve[0]!);
  return { points: withoutTwins([first, ...curve]), length, atRim: half(rim) };
}

/** The slab with its darts cut out. */
export function rosette(profile: Profile, foot: number, darts: number): Piece {
  const edge = petalEdge(profile, foot, darts);
  const rim = foot + lengthAlong(profile);
  const turned = (points: readonly Point[], petal: number): Point[] => {
    const angle = (2 * Math.PI * petal) / darts;
    const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
    return points.map(([x, y]) => [x * cos - y * sin, x * sin + y * cos]);
  };
  const mirrored = edge.points.map(([x, y]): Point => [-x, y]);
  const top = arc([0, 0], rim, -Math.PI / 2 - edge.atRim, -Math.PI / 2 + edge.atRim);
  const petals = Array.from({ length: darts }, (_, petal) => ({
    left: turned(mirrored, petal),
    top: turned(top, petal),
    right: turned(edge.points, petal),
  }));
  const edges = petals.flatMap(({ left, top: rimOf, right }, petal): Edge[] => [
    { name: `rim ${petal + 1}`, length: 2 * rim * edge.atRim, along: rimOf },
    meeting({ name: `petal ${petal + 1} left`, length: edge.length, along: left }, 'darts', 'a'),
    meeting({ name: `petal ${petal + 1} right`, length: edge.length, along: right }, 'darts', 'b'),
  ]);
  return piece('bowl', {
    outline: withoutTwins(
      petals.flatMap((petal) => [...petal.left, ...petal.top, ...[...petal.right].reverse()]),
    ),
    lines:
      foot > 0 ? [{ pen: 'mark', points: arc([0, 0], foot, 0, 2 * Math.PI).slice(0, -1), closed: true }] : [],
    edges,
  });
}
