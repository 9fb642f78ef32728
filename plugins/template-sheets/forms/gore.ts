/**
 * A gore: one of n equal slabs from pole to pole. At s mm along its middle line it is 2πr(s)/n wide, so that all of them
 * together measure the ball's girth at every height, and their areas add up to the ball's.
 */
import type { Edge, Piece, Point } from '../piece.ts';
import { traced } from '../shape/arc.ts';
import { withoutTwins } from './joint.ts';
import { meeting, piece } from './named-piece.ts';
import { across, integral, lengthAlong, type Profile, spread } from './round-profile.ts';

export function gore(profile: Profile, gores: number, below?: string): Piece {
  const long = lengthAlong(profile);
  const half = (s: number): number => (Math.PI * Math.max(0, across(profile, s))) / gores;
  const at = (s: number, side: 1 | -1): Point => [side * half(s), long - s];
  const left = traced((s) => at(s, -1), 0, long);
  const right = traced((s) => at(s, 1), 0, long);
  const length = integral((s) => Math.hypot(1, (Math.PI * spread(profile, s)) / gores), 0, long);
  const [foot, rim] = [half(0) * 2, half(long) * 2];
  const ends: Edge[] = [];
  if (rim > 1e-9) ends.push({ name: 'top', length: rim, along: [left.at(-1)!, right.at(-1)!] });
  if (foot > 1e-9) {
    const edge = { name: 'bottom', length: foot, along: [left[0]!, right[0]!] };
    ends.push(below ? meeting(edge, below, 'a') : edge);
  }
  return piece('gore', {
    count: gores,
    outline: withoutTwins([...left, ...right.reverse()]),
    edges: [
      ...ends,
      meeting({ name: 'left edge', length, along: left }, 'gores', 'a'),
      meeting({ name: 'right edge', length, along: right }, 'gores', 'b'),
    ],
  });
}
