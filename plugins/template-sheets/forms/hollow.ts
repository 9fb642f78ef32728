/** Bowls (one slab with darts, or gores) and balls (gores). */
import type { Development } from '../piece.ts';
import { circle } from '../shape/arc.ts';
import type { Of } from '../spec/spec.ts';
import { wallOf } from '../spec/wall.ts';
import { tooThick } from './cannot-be.ts';
import { rosette } from './darts.ts';
import { gore } from './gore.ts';
import { meeting, piece } from './named-piece.ts';
import { type Profile, zoneArea } from './round-profile.ts';

/**
 * The bowl's sphere goes through its foot and its rim; its middle is z = (a² + h² − f²)/2h above the foot. The middle
 * of the wall is a sphere about the same point, cut off level with the rim, and with the middle of the foot.
 */
function bowlProfile(spec: Of<'bowl'>, toMiddle: number): Profile & { readonly foot: number } {
  const [a, f, h] = [spec.rim / 2, (spec.foot ?? 0) / 2, spec.depth];
  const centre = (a * a + h * h - f * f) / (2 * h);
  const radius = Math.hypot(f, centre) + toMiddle;
  const above = h - centre;
  const below = centre + toMiddle;
  if (radius <= Math.abs(above) || below <= -above) throw tooThick('rim');
  const foot = f === 0 ? 0 : Math.sqrt(Math.max(0, radius * radius - below * below));
  if (f > 0 && foot === 0) throw tooThick('foot');
  return { radius, foot, from: Math.atan2(foot, below), to: Math.acos(-above / radius) };
}

/** Volume of a zone of a sphere between two angles from its lowest point. */
function zoneVolume({ radius, from, to }: Profile): number {
  const [low, high] = [-radius * Math.cos(from), -radius * Math.cos(to)];
  const upTo = (z: number): number => Math.PI * (radius * radius * z - z ** 3 / 3);
  return upTo(high) - upTo(low);
}

export function bowl(spec: Of<'bowl'>): Development {
  const profile = bowlProfile(spec, wallOf(spec).toMiddle);
  const { foot } = profile;
  const facts = { area: zoneArea(profile) + Math.PI * foot * foot, volume: zoneVolume(profile) };
  if (spec.darts !== undefined) return { pieces: [rosette(profile, foot, spec.darts)], facts };
  const gores = spec.gores!;
  const pieces = [gore(profile, gores, foot > 0 ? 'foot' : undefined)];
  if (foot === 0) return { pieces, facts };
  const outline = circle([0, 0], foot);
  const rim = { name: 'rim', length: 2 * Math.PI * foot, along: outline, closed: true };
  return { pieces: [...pieces, piece('foot', { outline, edges: [meeting(rim, 'foot', 'b')] })], facts };
}

export function sphere(spec: Of<'sphere'>): Development {
  const { toMiddle } = wallOf(spec);
  const outer = spec.diameter / 2;
  const radius = outer + toMiddle;
  if (radius <= 0) throw tooThick('diameter');
  // The opening's edge is cut level, so that its height is that of the face it was measured on.
  const level = Math.sqrt(outer ** 2 - ((spec.opening ?? 0) / 2) ** 2);
  if (level >= radius && spec.opening) throw tooThick('opening');
  const to = spec.opening ? Math.acos(-level / radius) : Math.PI;
  const profile = { radius, from: 0, to };
  return {
    pieces: [gore(profile, spec.gores)],
    facts: { area: zoneArea(profile), volume: zoneVolume(profile) },
  };
}
