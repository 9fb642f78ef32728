/** An SVG file as a tree of elements: read strictly, without entities, within limits that no honest drawing reaches. */
import { SaxesParser, type SaxesTagPlain } from 'saxes';

export interface Element {
  /** Local name in lower case where it is SVG's own; elements of other makers' namespaces keep their prefix. */
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: Element[];
  /** Of the file, from 1. */
  readonly line: number;
  /** Text directly within. */
  text: string;
}

/** What is wrong with a drawing, in a sentence that names the element. */
export class BadDrawing extends Error {}

const MOST_CHARACTERS = 20_000_000;
const MOST_ELEMENTS = 100_000;
const DEEPEST = 200;

/** How an element is called in sentences. */
export function called({ name, attributes, line }: Element): string {
  const id = attributes.id ? ` “${attributes.id.slice(0, 60)}”` : '';
  return `<${name}>${id} on line ${line}`;
}

export function treeOf(text: string): Element {
  if (text.length > MOST_CHARACTERS)
    throw new BadDrawing(
      `The drawing is ${Math.round(text.length / 1e6)} MB long; it should be at most ${MOST_CHARACTERS / 1e6} MB.`,
    );
  const growing = new Growing();
  const parser = new SaxesParser({ position: true });
  parser.on('doctype', (doctype) => {
    if (/<!ENTITY/i.test(doctype))
      throw new BadDrawing(
        'The drawing defines entities of its own (<!ENTITY>), which are not read; save it as plain SVG.',
      );
  });
  parser.on('error', (error) => {
    throw new BadDrawing(
      `The drawing is not sound SVG: ${error.message.replace(/^\d+:\d+: /, '')} (line ${parser.line}).`,
    );
  });
  parser.on('opentag', (tag) => growing.open(tag as SaxesTagPlain, parser.line));
  parser.on('closetag', () => growing.close());
  parser.on('text', (part) => growing.say(part));
  parser.on('cdata', (part) => growing.say(part));
  parser.write(text).close();
  return growing.root();
}

class Growing {
  private readonly path: Element[] = [];
  private top: Element | undefined;
  private count = 0;

  open(tag: SaxesTagPlain, line: number): void {
    if (++this.count > MOST_ELEMENTS)
      throw new BadDrawing(`The drawing has more than ${MOST_ELEMENTS} elements (line ${line}).`);
    if (this.path.length >= DEEPEST)
      throw new BadDrawing(`<${tag.name}> on line ${line} lies more than ${DEEPEST} elements deep.`);
    const element: Element = {
      name: tag.name.replace(/^svg:/, '').toLowerCase(),
      attributes: tag.attributes,
      children: [],
      line,
      text: '',
    };
    this.path.at(-1)?.children.push(element);
    this.top ??= element;
    this.path.push(element);
  }

  close(): void {
    this.path.pop();
  }

  say(part: string): void {
    const here = this.path.at(-1);
    if (here && here.text.length < 2_000) here.text += part;
  }

  root(): Element {
    if (this.top?.name !== 'svg')
      throw new BadDrawing(
        this.top
          ? `The file begins with <${this.top.name}>; a drawing begins with <svg>.`
          : 'The file is empty.',
      );
    return this.top;
  }
}
