import type { Piece, Point } from '../../plugins/template-sheets/piece.ts';
import { inTheRound } from '../../plugins/template-sheets/round/in-the-round.ts';
import { boxOf, heightOf, widthOf } from '../../plugins/template-sheets/shape/measure.ts';
import type { Measured } from '../../plugins/template-sheets/spec/spec.ts';
import { numberText } from '../words/numbers.ts';
import { templates as words } from '../words/templates.ts';

const pathOf = (points: readonly Point[], closed = false): string =>
  `M${points.map(([x, y]) => `${x.toFixed(2)} ${y.toFixed(2)}`).join('L')}${closed ? 'Z' : ''}`;

function boxFor(points: readonly Point[], room = 0.04): string {
  const box = boxOf(points);
  const edge = Math.max(widthOf(box), heightOf(box)) * room;
  return [box.left - edge, box.top - edge, widthOf(box) + 2 * edge, heightOf(box) + 2 * edge].join(' ');
}

/** The pot as it will stand. */
export function Round({ spec }: { readonly spec: Measured }) {
  const lines = inTheRound(spec);
  return (
    <figure class="template-round">
      <svg viewBox={boxFor(lines.flat())} role="img" aria-label={words.round}>
        <path d={lines.map((line) => pathOf(line)).join('')} />
      </svg>
      <figcaption class="soft small">{words.round}</figcaption>
    </figure>
  );
}

/** Its pieces, flat, each with its size; lines as they are printed. */
export const Flat = ({ pieces }: { readonly pieces: readonly Piece[] }) => (
  <figure class="template-flat">
    <ul>
      {pieces.map((piece) => {
        const box = boxOf(piece.outline);
        const size = words.pieceSize(
          piece.name,
          piece.count,
          numberText(Math.round(widthOf(box))),
          numberText(Math.round(heightOf(box))),
        );
        return (
          <li key={piece.name}>
            <svg viewBox={boxFor(piece.outline)} role="img" aria-label={size}>
              <path d={[piece.outline, ...piece.holes].map((rim) => pathOf(rim, true)).join('')} />
              {piece.lines.map((line, at) => (
                <path key={at} class={`pen-${line.pen}`} d={pathOf(line.points, line.closed)} />
              ))}
            </svg>
            <span class="small">{size}</span>
          </li>
        );
      })}
    </ul>
    <figcaption class="soft small">{words.flat}</figcaption>
  </figure>
);
