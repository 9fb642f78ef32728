/** Lengths and transforms as SVG writes them. */
import { both, type Matrix, resize, STAY, shift, turn } from '../shape/move.ts';
import { BadDrawing, called, type Element } from './tree.ts';

/** User units (px) in each unit; CSS fixes the inch at 96 px. */
const UNITS: Readonly<Record<string, number>> = {
  '': 1,
  px: 1,
  in: 96,
  cm: 96 / 2.54,
  mm: 96 / 25.4,
  q: 96 / 101.6,
  pt: 96 / 72,
  pc: 16,
};
export const MM_PER_PX = 25.4 / 96;

const LENGTH = /^\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)\s*([a-z%]*)\s*$/i;

/** In user units; undefined when the attribute is not there. */
export function lengthIn(element: Element, attribute: string): number | undefined {
  const given = element.attributes[attribute];
  if (given === undefined) return undefined;
  const [, number, unit] = LENGTH.exec(given) ?? [];
  const scale = UNITS[(unit ?? '').toLowerCase()];
  const value = Number(number) * (scale ?? Number.NaN);
  if (!Number.isFinite(value))
    throw new BadDrawing(
      `The ${attribute} of ${called(element)} is “${given.slice(0, 40)}”; it should be a length in mm, cm, in, pt or px.`,
    );
  return value;
}

/** A size that must be there and more than nothing. */
export function sizeIn(element: Element, attribute: string): number {
  const size = lengthIn(element, attribute);
  if (size === undefined) throw new BadDrawing(`The ${attribute} of ${called(element)} is missing.`);
  if (size <= 0)
    throw new BadDrawing(
      `The ${attribute} of ${called(element)} is ${element.attributes[attribute]}; it should be more than 0.`,
    );
  return size;
}

const NUMBERS = /[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?/gi;
const rad = (degrees: number): number => (degrees * Math.PI) / 180;

const STEPS: Readonly<
  Record<string, { readonly takes: readonly number[]; readonly make: (n: number[]) => Matrix }>
> = {
  matrix: { takes: [6], make: (n) => n as unknown as Matrix },
  translate: { takes: [1, 2], make: ([x = 0, y = 0]) => shift(x, y) },
  scale: { takes: [1, 2], make: ([x = 1, y = x]) => [x, 0, 0, y, 0, 0] },
  rotate: {
    takes: [1, 3],
    make: ([angle = 0, x = 0, y = 0]) => both(both(shift(-x, -y), turn(angle)), shift(x, y)),
  },
  skewx: { takes: [1], make: ([angle = 0]) => [1, 0, Math.tan(rad(angle)), 1, 0, 0] },
  skewy: { takes: [1], make: ([angle = 0]) => [1, Math.tan(rad(angle)), 0, 1, 0, 0] },
};

/** Letters; a drawing program writes a few dozen. */
const LONGEST_TRANSFORM = 4_000;

/** The element's own `transform`. */
export function transformOf(element: Element): Matrix {
  const given = element.attributes.transform;
  if (!given) return STAY;
  const wrong = () =>
    new BadDrawing(`The transform of ${called(element)} cannot be read: “${given.slice(0, 60)}”.`);
  if (given.length > LONGEST_TRANSFORM)
    throw new BadDrawing(
      `The transform of ${called(element)} is ${given.length} letters long, and at most ${LONGEST_TRANSFORM} are read.`,
    );
  let matrix = STAY;
  const rest = given.replace(/([a-z]+)\s*\(([^()]*)\)[\s,]*/gi, (_, name: string, inside: string) => {
    const step = STEPS[name.toLowerCase()];
    const numbers = (inside.match(NUMBERS) ?? []).map(Number);
    if (!step?.takes.includes(numbers.length) || !numbers.every(Number.isFinite)) throw wrong();
    // The step written last is applied first.
    matrix = both(step.make(numbers), matrix);
    return '';
  });
  if (rest.trim() !== '') throw wrong();
  return matrix;
}

/** How an element's `viewBox` comes to lie in its width and height; user units of the parent. */
export function viewBoxMatrix(
  element: Element,
  width: number | undefined,
  height: number | undefined,
): Matrix {
  const given = element.attributes.viewBox ?? element.attributes.viewbox;
  if (given === undefined) return STAY;
  const numbers = (given.match(NUMBERS) ?? []).map(Number);
  const [x = 0, y = 0, wide = 0, high = 0] = numbers;
  if (numbers.length !== 4 || wide <= 0 || high <= 0)
    throw new BadDrawing(
      `The viewBox of ${called(element)} is “${given.slice(0, 60)}”; it should be four numbers, the last two more than 0.`,
    );
  const byWidth = width === undefined ? undefined : width / wide;
  const byHeight = height === undefined ? undefined : height / high;
  const scale = byWidth ?? byHeight ?? 1;
  if (element.attributes.preserveAspectRatio?.trim().startsWith('none'))
    return both(shift(-x, -y), [byWidth ?? scale, 0, 0, byHeight ?? scale, 0, 0]);
  return both(shift(-x, -y), resize(Math.min(scale, byHeight ?? scale)));
}
