import { figures } from '../words/figures.ts';
import { numberText } from '../words/numbers.ts';

export interface Shape {
  readonly d: string;
  readonly label: string;
  readonly pen: 'line' | 'fill' | 'dash';
}

interface Props {
  readonly title: string;
  readonly width: number;
  readonly height: number;
  readonly shapes: readonly Shape[];
}

/** A drawing to scale: one unit of the drawing is one millimetre. */
export const Plan = ({ title, width, height, shapes }: Props) => (
  <figure class="plan">
    <svg viewBox={`0 0 ${width} ${height}`} role="img" aria-label={title}>
      {shapes.map((shape, n) => (
        <path key={n} class={`plan-${shape.pen}`} d={shape.d}>
          <title>{shape.label}</title>
        </path>
      ))}
    </svg>
    <figcaption class="soft small">{figures.millimetres(numberText(width), numberText(height))}</figcaption>
  </figure>
);
