/** What the parts of a paper are, for who has it read aloud (tagged PDF: ISO 32000-1, 14.7 and 14.8). */
import type { Element, Pdf } from './pdf.ts';

/** Structure types of ISO 32000-1, 14.8.4, as far as papers have them. */
export type Kind = 'P' | 'H1' | 'H2' | 'H3' | 'L' | 'LI' | 'LBody' | 'Table' | 'TR' | 'TH' | 'TD' | 'Figure';

/** Marks that bear the same tag are one part, in the order in which they are drawn. */
export interface Tag {
  readonly as: Kind;
  readonly within?: Tag;
  /** What a figure shows. */
  readonly alt?: string;
}

export class Tags {
  private readonly whole: Element;
  private section: Element;
  private readonly known = new Map<Tag, Element>();
  /** Within a part or within what is not read, nothing is tagged anew. */
  private inside = false;

  constructor(private readonly pdf: Pdf) {
    this.whole = pdf.struct('Document');
    this.section = this.whole;
    pdf.addStructure(this.whole);
  }

  /** What follows is a part of its own: a sheet that is not the continuation of the one before. */
  newSection(): void {
    this.section = this.pdf.struct('Sect');
    this.whole.add(this.section);
  }

  tagged(tag: Tag, draw: () => void): void {
    this.around(draw, (within) => this.elementOf(tag).add(within));
  }

  /** Lines and shapes that say nothing by themselves, and what comes again on each page. */
  untagged(draw: () => void): void {
    this.around(draw, (within) => {
      this.pdf.markContent('Artifact');
      within();
      this.pdf.endMarkedContent();
    });
  }

  private around(draw: () => void, mark: (within: () => void) => void): void {
    if (this.inside) {
      draw();
      return;
    }
    this.inside = true;
    mark(draw);
    this.inside = false;
  }

  private elementOf(tag: Tag): Element {
    const before = this.known.get(tag);
    if (before) return before;
    const scope = tag.as === 'TH' ? { scope: 'Column' } : {};
    const element = this.pdf.struct(tag.as, { ...scope, ...(tag.alt === undefined ? {} : { alt: tag.alt }) });
    (tag.within ? this.elementOf(tag.within) : this.section).add(element);
    this.known.set(tag, element);
    return element;
  }
}
