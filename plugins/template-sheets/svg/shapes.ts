/** Basic shapes as path data (SVG 2, chapter 10). */
import { lengthIn, sizeIn } from './lengths.ts';
import { BadDrawing, called, type Element } from './tree.ts';

const at = (element: Element, attribute: string): number => lengthIn(element, attribute) ?? 0;

function rect(element: Element): string {
  const [x, y] = [at(element, 'x'), at(element, 'y')];
  const [width, height] = [sizeIn(element, 'width'), sizeIn(element, 'height')];
  const [givenX, givenY] = [lengthIn(element, 'rx'), lengthIn(element, 'ry')];
  const rx = Math.min(givenX ?? givenY ?? 0, width / 2);
  const ry = Math.min(givenY ?? givenX ?? 0, height / 2);
  if (rx < 0 || ry < 0) throw new BadDrawing(`The corners of ${called(element)} have a negative radius.`);
  if (rx === 0 || ry === 0) return `M${x} ${y}h${width}v${height}h${-width}z`;
  const [w, h] = [width - 2 * rx, height - 2 * ry];
  const corner = (dx: number, dy: number): string => `a${rx} ${ry} 0 0 1 ${dx} ${dy}`;
  return `M${x + rx} ${y}h${w}${corner(rx, ry)}v${h}${corner(-rx, ry)}h${-w}${corner(-rx, -ry)}v${-h}${corner(rx, -ry)}z`;
}

function round(element: Element, rx: number, ry: number): string {
  const [cx, cy] = [at(element, 'cx'), at(element, 'cy')];
  return `M${cx - rx} ${cy}a${rx} ${ry} 0 0 1 ${2 * rx} 0a${rx} ${ry} 0 0 1 ${-2 * rx} 0z`;
}

function corners(element: Element, close: string): string {
  const numbers = (element.attributes.points ?? '').trim().split(/[\s,]+/);
  if (
    numbers.length < 4 ||
    numbers.length % 2 === 1 ||
    !numbers.every((text) => Number.isFinite(Number(text)))
  )
    throw new BadDrawing(`The points of ${called(element)} should be pairs of numbers, two at least.`);
  return `M${numbers.join(' ')}${close}`;
}

/** Path data of a shape; undefined when the element is none. Units are the element's own. */
export function pathOf(element: Element): string | undefined {
  switch (element.name) {
    case 'path':
      return element.attributes.d ?? '';
    case 'rect':
      return rect(element);
    case 'circle':
      return round(element, sizeIn(element, 'r'), sizeIn(element, 'r'));
    case 'ellipse':
      return round(element, sizeIn(element, 'rx'), sizeIn(element, 'ry'));
    case 'line':
      return `M${at(element, 'x1')} ${at(element, 'y1')}L${at(element, 'x2')} ${at(element, 'y2')}`;
    case 'polyline':
      return corners(element, '');
    case 'polygon':
      return corners(element, 'z');
    default:
      return undefined;
  }
}
