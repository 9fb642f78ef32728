/**
 * Cylinder and cone frustum. The frustum's pattern: slant s = √(h² + ((D − d)/2)²), outer radius R = D/2 · s/((D − d)/2),
 * inner radius R − s, angle 360° · (D/2)/R. Equal ends have no apex: a rectangle πD long.
 */
import type { Development, Piece } from '../piece.ts';
import { circle } from '../shape/arc.ts';
import type { Of } from '../spec/spec.ts';
import { type BaseKind, baseOf, seamOf, type Wall, wallOf } from '../spec/wall.ts';
import { tooThick } from './cannot-be.ts';
import { roundFan, straight } from './fan.ts';
import { joined } from './joint.ts';
import { meeting, piece, wallEdges } from './named-piece.ts';

/** The middle of the wall: radii at its two ends and the height between them, mm. */
interface Cone {
  readonly bottom: number;
  readonly top: number;
  readonly height: number;
}

const slantOf = ({ bottom, top, height }: Cone): number => Math.hypot(height, bottom - top);

/** Thickness is square to the wall; level with the ground it is wider by this. */
const level = (cone: Cone): number => slantOf(cone) / cone.height;

function middleOf(measured: Cone, wall: Wall, fields: readonly [string, string]): Cone {
  const by = wall.toMiddle * level(measured);
  const { bottom, top, height } = measured;
  const moved = { bottom: bottom + (bottom ? by : 0), top: top + (top ? by : 0), height };
  if (moved.bottom < 0 || (bottom > 0 && moved.bottom === 0)) throw tooThick(fields[0]);
  if (moved.top < 0 || (top > 0 && moved.top === 0)) throw tooThick(fields[1]);
  if (by === 0 || (bottom > 0 && top > 0)) return moved;
  // A pointed end stays a point: the middle of the wall has its own, lower or higher along the same slope.
  const wide = Math.max(bottom, top);
  return { ...moved, height: (height * (wide + by)) / wide };
}

/** The wall stands on the base: it is shorter by the base's thickness, and as wide as the form is at that height. */
function above(cone: Cone, thick: number): Cone {
  if (thick >= cone.height) throw tooThick('height');
  const share = thick / cone.height;
  return {
    ...cone,
    bottom: cone.bottom + (cone.top - cone.bottom) * share,
    height: cone.height - thick,
  };
}

function baseDisc(cone: Cone, kind: BaseKind, wall: Wall): Piece[] {
  if (kind === 'none' || cone.bottom === 0) return [];
  const half = (wall.thick / 2) * level(cone);
  const radius = kind === 'under' ? cone.bottom + half : cone.bottom - half;
  if (radius <= 0) throw tooThick('base');
  const seat = kind === 'under' && half > 0;
  const outline = circle([0, 0], radius);
  const rim = { name: 'rim', length: 2 * Math.PI * radius, along: outline, closed: true };
  return [
    piece('base', {
      outline,
      lines: seat ? [{ pen: 'mark', points: circle([0, 0], cone.bottom), closed: true }] : [],
      edges: [meeting(rim, 'base', 'b', 2 * Math.PI * cone.bottom)],
    }),
  ];
}

export const cylinder = (spec: Of<'cylinder'>): Development =>
  develop(spec, { bottom: spec.diameter / 2, top: spec.diameter / 2, height: spec.height }, [
    'diameter',
    'diameter',
  ]);

export const frustum = (spec: Of<'frustum'>): Development =>
  develop(spec, { bottom: spec.bottom / 2, top: spec.top / 2, height: spec.height }, ['bottom', 'top']);

function develop(
  spec: Of<'cylinder'> | Of<'frustum'>,
  measured: Cone,
  fields: readonly [string, string],
): Development {
  const wall = wallOf(spec);
  const seam = seamOf(spec.seam, wall);
  const kind = baseOf(spec.base);
  const whole = middleOf(measured, wall, fields);
  const cone = kind === 'under' ? above(whole, wall.thick) : whole;
  const { flat, ...ring } = patternOf(cone);
  const slant = slantOf(cone);
  const wallPiece = piece('wall', {
    ...joined(flat, seam),
    edges: wallEdges(
      flat,
      2 * Math.PI * cone.top,
      2 * Math.PI * cone.bottom,
      slant,
      kind !== 'none' && cone.bottom > 0,
    ),
  });
  return {
    pieces: [wallPiece, ...baseDisc(cone, kind, wall)],
    facts: {
      ...(spec.form === 'frustum' ? ring : {}),
      area: Math.PI * (cone.bottom + cone.top) * slant,
      volume: (Math.PI * cone.height * (cone.bottom ** 2 + cone.bottom * cone.top + cone.top ** 2)) / 3,
    },
  };
}

function patternOf(cone: Cone) {
  const wider = Math.max(cone.bottom, cone.top);
  const slant = slantOf(cone);
  const taper = Math.abs(cone.bottom - cone.top);
  // Below a millionth of the slant the two rims differ by less than any printer could show.
  if (taper < slant * 1e-9)
    return { flat: straight(2 * Math.PI * wider, slant), innerRadius: null, outerRadius: null, angle: 0 };
  const outerRadius = (wider * slant) / taper;
  const angle = (2 * Math.PI * wider) / outerRadius;
  return {
    flat: roundFan({ outerRadius, slant }, angle, cone.bottom > cone.top),
    innerRadius: Math.max(0, outerRadius - slant),
    outerRadius,
    angle: (angle * 180) / Math.PI,
  };
}
