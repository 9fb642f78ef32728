/** Through a drawing's groups and uses to its shapes, each with where it lies and how its line is to be read. */
import type { Pen } from '../piece.ts';
import { both, type Matrix, resize, shift } from '../shape/move.ts';
import { lengthIn, MM_PER_PX, sizeIn, transformOf, viewBoxMatrix } from './lengths.ts';
import { pathOf } from './shapes.ts';
import { BadDrawing, called, type Element } from './tree.ts';

export interface Shape {
  readonly element: Element;
  /** Path data in the element's units. */
  readonly path: string;
  /** From there to mm. */
  readonly matrix: Matrix;
  /** As its own name or a group's says; undefined when none does. */
  readonly pen: Pen | undefined;
  readonly name: string | undefined;
}

export interface Walked {
  readonly shapes: readonly Shape[];
  /** What was left out, in sentences, each once. */
  readonly dropped: readonly string[];
}

const MOST_USES = 2_000;
const MOST_SHAPES = 20_000;
const DEEPEST_USE = 12;

/** Kept aside until something refers to them, or never drawn by themselves. */
const NOT_DRAWN = new Set(
  'defs symbol clippath mask pattern marker lineargradient radialgradient filter title desc metadata style'.split(
    ' ',
  ),
);
const GROUPS = new Set(['g', 'a', 'switch', 'svg']);
const WHY_DROPPED: Readonly<Record<string, string>> = {
  script: 'scripts are never run',
  foreignobject: 'foreign objects are not drawn',
  image: 'pictures are not traced here; bring it in as a scan',
  text: 'lettering is not cut; turn it into paths to keep it',
};

/** Words in an element's id, class or layer name that say how its lines are to be read. */
const PEN_WORDS: readonly (readonly [Pen, RegExp])[] = [
  ['fold', /\b(fold|folds|score|crease)\b/i],
  ['bevel', /\b(bevel|bevels|mitre|miter)\b/i],
  ['mark', /\b(mark|marks|guide|guides|notch|notches)\b/i],
  ['cut', /\b(cut|cuts|outline|outlines)\b/i],
];

interface Within {
  readonly matrix: Matrix;
  readonly pen: Pen | undefined;
  readonly name: string | undefined;
  /** Ids of the uses it lies in. */
  readonly uses: readonly string[];
}

export function walk(root: Element): Walked {
  const walker = new Walker(root);
  const width = root.attributes.width?.includes('%') ? undefined : rootSize(root, 'width');
  const height = root.attributes.height?.includes('%') ? undefined : rootSize(root, 'height');
  const matrix = both(viewBoxMatrix(root, width, height), resize(MM_PER_PX));
  if (width === undefined && height === undefined)
    walker.drop('The drawing says no size in mm; its units were taken as 1/96 inch.');
  walker.inside(root, { matrix, pen: undefined, name: undefined, uses: [] });
  return { shapes: walker.shapes, dropped: [...walker.dropped] };
}

const rootSize = (root: Element, name: 'width' | 'height'): number | undefined =>
  root.attributes[name] === undefined || root.attributes[name] === 'auto' ? undefined : sizeIn(root, name);

class Walker {
  readonly shapes: Shape[] = [];
  readonly dropped = new Set<string>();
  private readonly byId = new Map<string, Element>();
  private uses = 0;

  constructor(root: Element) {
    const waiting = [root];
    for (let next = waiting.pop(); next; next = waiting.pop()) {
      if (next.attributes.id && !this.byId.has(next.attributes.id)) this.byId.set(next.attributes.id, next);
      for (const child of next.children) waiting.push(child);
    }
  }

  drop(sentence: string): void {
    if (this.dropped.size < 50) this.dropped.add(sentence);
  }

  inside(element: Element, within: Within): void {
    for (const child of element.children) this.one(child, within);
  }

  private one(element: Element, outer: Within): void {
    const { name } = element;
    if (name.includes(':') || NOT_DRAWN.has(name) || hidden(element)) return;
    this.dropHandlers(element);
    const why = WHY_DROPPED[name];
    if (why) {
      this.drop(`${called(element)} was left out: ${why}.`);
      return;
    }
    const within = { ...outer, ...saidBy(element, outer), matrix: both(transformOf(element), outer.matrix) };
    if (name === 'svg') this.nested(element, within);
    else if (GROUPS.has(name)) this.inside(element, within);
    else if (name === 'use') this.used(element, within);
    else this.shape(element, within);
  }

  private shape(element: Element, { matrix, pen, name }: Within): void {
    const path = pathOf(element);
    if (this.shapes.length >= MOST_SHAPES)
      throw new BadDrawing(`The drawing has more than ${MOST_SHAPES} shapes (${called(element)}).`);
    if (path === undefined) this.drop(`${called(element)} was left out: it is no shape.`);
    else this.shapes.push({ element, path, matrix, pen, name });
  }

  private dropHandlers(element: Element): void {
    const handler = Object.keys(element.attributes).find((name) => /^on/i.test(name));
    if (handler) this.drop(`“${handler}” of ${called(element)} was left out: scripts are never run.`);
  }

  private nested(element: Element, within: Within): void {
    const place = shift(lengthIn(element, 'x') ?? 0, lengthIn(element, 'y') ?? 0);
    const box = viewBoxMatrix(element, lengthIn(element, 'width'), lengthIn(element, 'height'));
    this.inside(element, { ...within, matrix: both(both(box, place), within.matrix) });
  }

  private used(element: Element, within: Within): void {
    const href = (element.attributes.href ?? element.attributes['xlink:href'] ?? '').trim();
    const id = href.slice(1);
    const target = href.startsWith('#') ? this.byId.get(id) : undefined;
    if (!target) {
      const why = href.startsWith('#')
        ? `there is no “${id.slice(0, 60)}” in the drawing`
        : 'it refers to something outside the drawing';
      this.drop(`${called(element)} was left out: ${why}.`);
      return;
    }
    if (within.uses.includes(id)) throw new BadDrawing(`${called(element)} uses itself.`);
    if (++this.uses > MOST_USES || within.uses.length >= DEEPEST_USE)
      throw new BadDrawing(
        `${called(element)} makes the drawing too large: <use> may stand for at most ${MOST_USES} copies, ${DEEPEST_USE} within each other.`,
      );
    const place = shift(lengthIn(element, 'x') ?? 0, lengthIn(element, 'y') ?? 0);
    const inner = { ...within, uses: [...within.uses, id], matrix: both(place, within.matrix) };
    if (target.name === 'symbol') this.nested(target, inner);
    else this.one(target, inner);
  }
}

function hidden({ attributes }: Element): boolean {
  return attributes.display === 'none' || /display\s*:\s*none/.test(attributes.style ?? '');
}

/** The innermost name and pen win. */
function saidBy(element: Element, outer: Within): Pick<Within, 'pen' | 'name'> {
  const { attributes } = element;
  const label = attributes['inkscape:label'] ?? attributes['data-name'];
  const title = element.children.find(({ name }) => name === 'title')?.text.trim();
  const words = [attributes.id, attributes.class, label, attributes['data-pen']]
    .join(' ')
    .replaceAll(/[_-]/g, ' ');
  const pen = PEN_WORDS.find(([, pattern]) => pattern.test(words))?.[0];
  return { pen: pen ?? outer.pen, name: title || label || attributes.id || outer.name };
}
