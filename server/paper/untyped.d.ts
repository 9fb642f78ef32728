/** What is used of packages that bring no types. */
declare module 'bidi-js' {
  interface Bidi {
    /** Levels of each UTF-16 unit, and the paragraphs with theirs (UAX 9). */
    getEmbeddingLevels(
      text: string,
      direction?: 'ltr' | 'rtl',
    ): { levels: Uint8Array; paragraphs: { start: number; end: number; level: number }[] };
  }
  export default function bidiFactory(): Bidi;
}

declare module 'linebreak' {
  /** Where lines may break (UAX 14). */
  export default class LineBreaker {
    constructor(text: string);
    nextBreak(): { position: number; required: boolean } | null;
  }
}
