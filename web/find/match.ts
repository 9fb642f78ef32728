/** Which piece is meant by what was typed or scanned. Pure. */
import { type Likely, likelyMarks, readMark } from '../../server/contract/mark.ts';

/** A row of `studio/marks`. */
export interface Marked {
  readonly mark: string;
  readonly piece: string;
  readonly count: number;
  readonly form: string | null;
  readonly stage: string;
  readonly firing: string | null;
}

export interface Found {
  /** Pieces whose mark begins with it, or whose form has the words. */
  readonly hits: readonly Marked[];
  /** What is wrong with it as a mark, where it looks like one and is on no piece. */
  readonly wrong?: string;
  /** Pieces whose mark it can have been. */
  readonly likely: readonly (Marked & { readonly how: Likely['how'] })[];
}

const MOST = 8;
const tidy = (text: string): string => text.toUpperCase().replace(/[\s-]+/g, '');

/** Letters and digits, long enough to be a mark that was typed to its end. */
const looksLikeMark = (typed: string): boolean => /^[0-9A-Z]{4,6}$/.test(typed);

function byWords(text: string, marks: readonly Marked[]): readonly Marked[] {
  const words = text.toLowerCase().split(/\s+/).filter(Boolean);
  return marks.filter(({ form }) => words.every((word) => form?.toLowerCase().includes(word)));
}

export function match(text: string, marks: readonly Marked[]): Found {
  const typed = tidy(text);
  if (typed.length < 2) return { hits: [], likely: [] };
  const exact = marks.filter(({ mark }) => tidy(mark) === typed);
  if (exact.length > 0) return { hits: exact, likely: [] };
  const begun = marks.filter(({ mark }) => tidy(mark).startsWith(typed));
  const hits = [...begun, ...byWords(text, marks)].slice(0, MOST);
  if (hits.length > 0 || !looksLikeMark(typed)) return { hits, likely: [] };
  const by = new Map(marks.map((row) => [tidy(row.mark), row]));
  const likely = likelyMarks(typed)
    .flatMap(({ mark, how }) => {
      const row = by.get(mark);
      return row ? [{ ...row, how }] : [];
    })
    .slice(0, MOST);
  const read = readMark(typed);
  // A word of letters alone that is on no foot was not meant as a mark.
  const aWord = likely.length === 0 && !/\d/.test(typed) && 'wrong' in read && read.wrong === 'symbol';
  return { hits, likely, ...('wrong' in read && !aWord ? { wrong: read.sentence } : {}) };
}

/** What a label's code holds: the address of a piece, at whatever host it was printed, or its mark. */
export function readLabel(text: string): { readonly piece: string } | { readonly mark: string } | undefined {
  const piece = /(?:^|\/)ware\/([0-9a-z-]{8,40}(?:\.[0-9a-z]{1,16})?)\/?(?:[?#].*)?$/.exec(text.trim());
  if (piece) return { piece: piece[1]! };
  const read = readMark(text);
  return 'mark' in read ? read : undefined;
}
