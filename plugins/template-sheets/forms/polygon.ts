/**
 * A many-sided pot, straight or tapered. With n sides of A below and a above: inradius A/(2 tan(π/n)), circumradius
 * A/(2 sin(π/n)); a face leans by the difference of the inradii over the height; the edge between two faces is
 * √(h² + (difference of the circumradii)²). The pattern is a fan about the pyramid's apex, R = edge · A/(A − a).
 */
import type { Development, Piece, Point } from '../piece.ts';
import type { Of } from '../spec/spec.ts';
import { baseOf, seamOf, type Wall, wallOf } from '../spec/wall.ts';
import { tooThick } from './cannot-be.ts';
import { facetedFan, straight } from './fan.ts';
import { joined, withoutTwins } from './joint.ts';
import { meeting, piece, seamEdges, wallEdges } from './named-piece.ts';

/** The middle of the wall. */
interface Pot {
  readonly sides: number;
  readonly bottom: number;
  readonly top: number;
  readonly height: number;
}

const perSide = ({ sides }: Pot): number => 2 * Math.tan(Math.PI / sides);
const inradiusDifference = (pot: Pot): number => (pot.bottom - pot.top) / perSide(pot);

/** Along the middle of a face. */
const slantOf = (pot: Pot): number => Math.hypot(pot.height, inradiusDifference(pot));

/** Along the edge between two faces. */
const edgeOf = (pot: Pot): number =>
  Math.hypot(pot.height, (pot.bottom - pot.top) / (2 * Math.sin(Math.PI / pot.sides)));

/** Thickness level with the ground, for 1 mm square to the face. */
const level = (pot: Pot): number => slantOf(pot) / pot.height;

/** The angle between the directions that two neighbouring faces look in, radians. */
function turnOf(pot: Pot): number {
  const upright = (pot.height / slantOf(pot)) ** 2;
  return Math.acos(upright * Math.cos((2 * Math.PI) / pot.sides) + (1 - upright));
}

function middleOf(measured: Pot, wall: Wall): Pot {
  const { bottom, top, height } = measured;
  const by = wall.toMiddle * level(measured) * perSide(measured);
  const moved = { ...measured, bottom: bottom + (bottom ? by : 0), top: top + (top ? by : 0) };
  if (bottom > 0 && moved.bottom <= 0) throw tooThick('bottomSide');
  if (top > 0 && moved.top <= 0) throw tooThick('topSide');
  if (by === 0 || (bottom > 0 && top > 0)) return moved;
  const wide = Math.max(bottom, top);
  return { ...moved, height: (height * (wide + by)) / wide };
}

function above(pot: Pot, thick: number): Pot {
  if (thick >= pot.height) throw tooThick('height');
  const share = thick / pot.height;
  return { ...pot, bottom: pot.bottom + (pot.top - pot.bottom) * share, height: pot.height - thick };
}

/** A regular outline with one side level below. */
function regular(sides: number, side: number): Point[] {
  const radius = side / (2 * Math.sin(Math.PI / sides));
  return Array.from({ length: sides }, (_, at) => {
    const angle = Math.PI / 2 + (2 * Math.PI * (at + 0.5)) / sides;
    return [radius * Math.cos(angle), radius * Math.sin(angle)] as const;
  });
}

function base(pot: Pot, kind: 'under' | 'inside', wall: Wall): Piece {
  const half = (wall.thick / 2) * level(pot) * perSide(pot);
  const side = pot.bottom + (kind === 'under' ? half : -half);
  if (side <= 0) throw tooThick('base');
  const seat = kind === 'under' && half > 0;
  const outline = regular(pot.sides, side);
  return piece('base', {
    outline,
    lines: seat ? [{ pen: 'mark', points: regular(pot.sides, pot.bottom), closed: true }] : [],
    edges: outline.map((from, at) => {
      const along = [from, outline[(at + 1) % pot.sides]!];
      return meeting({ name: `side ${at + 1}`, length: side, along }, 'base', 'b', pot.bottom);
    }),
  });
}

const isStraight = (pot: Pot): boolean => Math.abs(pot.bottom - pot.top) < edgeOf(pot) * 1e-9;

function patternOf(pot: Pot) {
  const wider = Math.max(pot.bottom, pot.top);
  const edge = edgeOf(pot);
  if (isStraight(pot)) {
    const along = Array.from({ length: pot.sides - 1 }, (_, at) => (at + 1) * wider);
    const flat = straight(wider * pot.sides, edge, along);
    return { flat, innerRadius: null, outerRadius: null, angle: 0 };
  }
  const outerRadius = (edge * wider) / Math.abs(pot.bottom - pot.top);
  const face = 2 * Math.asin(wider / (2 * outerRadius));
  return {
    flat: facetedFan({ outerRadius, slant: edge }, face, pot.sides, pot.bottom > pot.top),
    innerRadius: Math.max(0, outerRadius - edge),
    outerRadius,
    angle: (face * pot.sides * 180) / Math.PI,
  };
}

function wallJoined(pot: Pot, spec: Of<'polygon'>, wall: Wall, based: boolean): Piece {
  const { flat } = patternOf(pot);
  const rim = joined(flat, seamOf(spec.seam, wall));
  const folds = Array.from({ length: pot.sides - 1 }, (_, at) => ({
    pen: 'fold' as const,
    points: [flat.top[at + 1] ?? flat.top[0]!, flat.bottom[at + 1] ?? flat.bottom[0]!],
  }));
  const on = (rim: readonly Point[], at: number): Point => rim[at] ?? rim[0]!;
  const rimEdges = (name: 'top' | 'bottom', length: number) =>
    Array.from({ length: pot.sides }, (_, at) => ({
      name: `${name} ${at + 1}`,
      length,
      along: [on(flat[name], at), on(flat[name], at + 1)],
    }));
  const below = rimEdges('bottom', pot.bottom);
  return piece('wall', {
    outline: rim.outline,
    lines: [...folds, ...rim.lines],
    edges: [
      ...rimEdges('top', pot.top),
      ...(based ? below.map((edge) => meeting(edge, 'base', 'a')) : below),
      ...seamEdges(flat, edgeOf(pot)),
    ],
  });
}

/** One slab for every side; where the wall is thick both long edges are mitred, from the outside in. */
function slab(pot: Pot, wall: Wall, based: boolean): Piece {
  const mitre = (wall.thick / 2) * Math.tan(turnOf(pot) / 2);
  const slant = slantOf(pot);
  const lean = Math.hypot((pot.bottom - pot.top) / 2, slant) / slant;
  const at = (half: number, y: number, by: number): Point => [half + by * lean, y];
  const left = (by: number): Point[] => [at(-pot.top / 2, 0, -by), at(-pot.bottom / 2, slant, -by)];
  const right = (by: number): Point[] => [at(pot.top / 2, 0, by), at(pot.bottom / 2, slant, by)];
  const degrees = Math.round(((turnOf(pot) / 2) * 1800) / Math.PI) / 10;
  const flat = { top: [left(0)[0]!, right(0)[0]!], bottom: [left(0)[1]!, right(0)[1]!] };
  return piece('side', {
    count: pot.sides,
    outline: withoutTwins([...left(mitre), ...right(mitre).reverse()]),
    lines: mitre > 0 ? [left, right].map((of) => ({ pen: 'bevel' as const, points: of(-mitre) })) : [],
    edges: wallEdges(flat, pot.top, pot.bottom, edgeOf(pot), based),
    notes: mitre > 0 ? [`mitre ${degrees}°`] : [],
  });
}

export function polygon(spec: Of<'polygon'>): Development {
  const wall = wallOf(spec);
  const kind = baseOf(spec.base);
  const measured = {
    sides: spec.sides,
    bottom: spec.bottomSide,
    top: spec.topSide ?? spec.bottomSide,
    height: spec.height,
  };
  const whole = middleOf(measured, wall);
  const pot = kind === 'under' ? above(whole, wall.thick) : whole;
  const based = kind !== 'none' && pot.bottom > 0;
  const wallPiece = spec.faces === 'apart' ? slab(pot, wall, based) : wallJoined(pot, spec, wall, based);
  const { flat: _, ...ring } = patternOf(pot);
  const { sides, bottom, top, height } = pot;
  return {
    pieces: [wallPiece, ...(based ? [base(pot, kind as 'under' | 'inside', wall)] : [])],
    facts: {
      ...ring,
      area: (sides * (bottom + top) * slantOf(pot)) / 2,
      volume: (height * sides * (bottom ** 2 + bottom * top + top ** 2)) / (12 * Math.tan(Math.PI / sides)),
    },
  };
}
