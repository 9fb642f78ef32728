/** From a spec to the flat pieces of wet clay, in every size of the set. */
import type { Development, Piece } from '../piece.ts';
import { pieceResized } from '../shape/move.ts';
import { scaled, wetFactor } from '../spec/size.ts';
import type { Measured, Spec } from '../spec/spec.ts';
import { box } from './box.ts';
import { CannotBe } from './cannot-be.ts';
import { crossing } from './crossing.ts';
import { drawing } from './drawing.ts';
import { handles } from './handles.ts';
import { bowl, sphere } from './hollow.ts';
import { oval } from './oval.ts';
import { polygon } from './polygon.ts';
import { cylinder, frustum } from './round.ts';

export type Developed = { readonly made: Development } | { readonly wrong: readonly string[] };

/** Pieces and facts in wet millimetres. The facts are those of the form at its own size, wet. */
export function develop(spec: Spec): Developed {
  try {
    const made = wet(inSizes(spec), wetFactor(spec.shrinkage));
    const crossed = made.pieces.flatMap((piece) => crossing(piece));
    return crossed.length > 0 ? { wrong: crossed } : { made };
  } catch (cause) {
    if (cause instanceof CannotBe) return { wrong: [cause.message] };
    throw cause;
  }
}

function inSizes(spec: Spec): Development {
  const own = withHandles(spec);
  if (!spec.sizes) return own;
  const pieces = spec.sizes.flatMap(({ name, scale }) =>
    sizeOf(spec, scale).map((piece) => ({
      ...piece,
      name: `${piece.name}, ${name}`,
      inSet: { size: name, piece: piece.name },
    })),
  );
  return { pieces, facts: own.facts };
}

const sizeOf = (spec: Spec, scale: number): readonly Piece[] =>
  spec.form === 'drawing'
    ? formOf(spec).pieces.map((piece) => pieceResized(piece, scale))
    : withHandles(scaled(spec as Measured, scale)).pieces;

function withHandles(spec: Spec): Development {
  const { pieces, facts } = formOf(spec);
  return spec.form === 'drawing' ? { pieces, facts } : { pieces: [...pieces, ...handles(spec)], facts };
}

function formOf(spec: Spec): Development {
  switch (spec.form) {
    case 'cylinder':
      return cylinder(spec);
    case 'frustum':
      return frustum(spec);
    case 'polygon':
      return polygon(spec);
    case 'oval':
      return oval(spec);
    case 'box':
      return box(spec);
    case 'bowl':
      return bowl(spec);
    case 'sphere':
      return sphere(spec);
    case 'drawing':
      return drawing(spec);
  }
}

/** Lengths grow by the factor, areas by its square, volumes by its cube. */
function wet({ pieces, facts }: Development, by: number): Development {
  if (by === 1) return { pieces, facts };
  const { innerRadius, outerRadius, angle, area, volume } = facts;
  return {
    pieces: pieces.map((piece) => pieceResized(piece, by)),
    facts: {
      ...(innerRadius === undefined ? {} : { innerRadius: innerRadius && innerRadius * by }),
      ...(outerRadius === undefined ? {} : { outerRadius: outerRadius && outerRadius * by }),
      ...(angle === undefined ? {} : { angle }),
      area: area * by ** 2,
      ...(volume === undefined ? {} : { volume: volume * by ** 3 }),
    },
  };
}
