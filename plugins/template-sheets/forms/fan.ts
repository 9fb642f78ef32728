/**
 * The pattern of a tapered wall: a part of a ring about the cone's (or pyramid's) apex.
 * Heights are reckoned from the middle of the outer rim, so that a hardly tapered wall, whose apex is kilometres
 * away, loses no digits.
 */
import type { Point } from '../piece.ts';
import { chordsFor } from '../shape/arc.ts';
import type { Flat } from './joint.ts';

interface Ring {
  /** mm from the apex to the wider rim. */
  readonly outerRadius: number;
  /** mm along the wall. */
  readonly slant: number;
}

/** The two rims at these turns from the middle of the pattern (radians), from left to right. */
function rims({ outerRadius, slant }: Ring, turns: readonly number[], widerBelow: boolean): Flat {
  const way = widerBelow ? 1 : -1;
  const at = (radius: number, turn: number): Point => [
    radius * Math.sin(turn),
    // ρ cos a − R, written without the difference of two large numbers.
    way * (radius - outerRadius - 2 * radius * Math.sin(turn / 2) ** 2),
  ];
  const innerRadius = outerRadius - slant;
  const outer = turns.map((turn) => at(outerRadius, turn));
  const inner = Math.abs(innerRadius) < 1e-9 ? [at(0, 0)] : turns.map((turn) => at(innerRadius, turn));
  return widerBelow ? { top: inner, bottom: outer } : { top: outer, bottom: inner };
}

/** Round rims. @param angle of the whole pattern, radians */
export function roundFan(ring: Ring, angle: number, widerBelow: boolean): Flat {
  const chords = chordsFor(ring.outerRadius, angle, 2);
  const turns = Array.from({ length: chords + 1 }, (_, at) => angle * (at / chords - 0.5));
  return rims(ring, turns, widerBelow);
}

/** Straight rims, one for each side of the pot. @param angle of one face, radians */
export function facetedFan(ring: Ring, angle: number, sides: number, widerBelow: boolean): Flat {
  const turns = Array.from({ length: sides + 1 }, (_, at) => angle * (at - sides / 2));
  return rims(ring, turns, widerBelow);
}

/** A straight wall: a rectangle, its rims divided where `along` says (mm from the left). */
export function straight(length: number, height: number, along: readonly number[] = []): Flat {
  const stops = [0, ...along, length];
  return { top: stops.map((x) => [x, 0]), bottom: stops.map((x) => [x, height]) };
}
