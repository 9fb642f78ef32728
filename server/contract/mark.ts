/**
 * The foot mark: what is scratched or stamped under a piece to know it again.
 * Four symbols and a check symbol; five and a check when those run out.
 */

/**
 * 23 symbols, a prime number, so that a weighted sum catches mistakes. Left out as look-alikes
 * in scratched clay: 0 O, 1 I L, 5 S, 2 Z, 8 B, U (as V), G (as C and 6).
 */
export const MARK_SYMBOLS = 'ACDEFHJKMNPQRTVWXY34679';

/**
 * What a symbol can be read as when the pot is held upside down, taken generously ('P' turned is a 'd').
 * Those not named here are no symbol of ours when turned.
 */
export const TURNED: Readonly<Record<string, string>> = {
  A: 'V',
  V: 'A',
  C: 'D',
  D: 'C',
  E: '3',
  3: 'E',
  H: 'H',
  4: 'H',
  K: 'K',
  M: 'W',
  W: 'M',
  N: 'N',
  P: 'D',
  Q: 'Q',
  X: 'X',
  6: '9',
  9: '6',
};

/** Symbols that show which way up the mark is: each mark has one at least. */
const UPRIGHT = new Set([...MARK_SYMBOLS].filter((symbol) => !(symbol in TURNED)));

/** Attempts at a mark of four symbols before one of five is given: by then most of the four are taken. */
const ATTEMPTS_AT_FOUR = 12;

/** What a left-out symbol is probably meant to be, for the sentence that says so. */
const MISREAD: Readonly<Record<string, string>> = {
  0: 'Q or D',
  O: 'Q or D',
  1: '7 or T',
  I: '7 or T',
  L: '7, with the piece upside down',
  5: '6 or 9',
  S: '9 or 3',
  2: '7 or 3',
  Z: '7 or N',
  8: '3, 6 or 9',
  B: 'P, R or 3',
  U: 'V',
  G: 'C or 6',
};

const BASE = MARK_SYMBOLS.length;
const value = (symbol: string): number => MARK_SYMBOLS.indexOf(symbol);

/** The sum over GF(23) with weights n … 2, 1 from the left; 0 for a sound mark. */
function weighted(mark: string): number {
  let sum = 0;
  for (let at = 0; at < mark.length; at++) sum += (mark.length - at) * value(mark[at]!);
  return sum % BASE;
}

/** The symbol that makes the mark sound, for the symbols before it. */
export function checkSymbol(symbols: string): string {
  return MARK_SYMBOLS[(BASE - weighted(`${symbols}${MARK_SYMBOLS[0]}`)) % BASE]!;
}

const showsWayUp = (mark: string): boolean => [...mark].some((symbol) => UPRIGHT.has(symbol));

/** FNV-1a over the text, then the finishing steps of MurmurHash3: even, quick and the same everywhere; no secret. */
function scatter(text: string): number {
  let hash = 0x811c9dc5;
  for (let at = 0; at < text.length; at++) hash = Math.imul(hash ^ text.charCodeAt(at), 0x01000193);
  hash = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
  hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35);
  return (hash ^ (hash >>> 16)) >>> 0;
}

function symbolsFor(number: number, length: number): string {
  let rest = number % BASE ** length;
  let symbols = '';
  for (let at = 0; at < length; at++) {
    symbols += MARK_SYMBOLS[rest % BASE];
    rest = Math.floor(rest / BASE);
  }
  return symbols;
}

/**
 * The mark for a piece that is begun by this command. The same command and attempt give the same mark;
 * the next attempt gives another one, for when the mark is already on a pot.
 */
export function markFor(commandId: string, attempt: number): string {
  const length = attempt < ATTEMPTS_AT_FOUR ? 4 : 5;
  for (let draw = 0; ; draw++) {
    const symbols = symbolsFor(scatter(`${commandId}/${attempt}/${draw}`), length);
    const mark = symbols + checkSymbol(symbols);
    if (showsWayUp(mark)) return mark;
  }
}

/** What a mark came to when read off a pot. */
export type MarkRead =
  | { readonly mark: string }
  /** `wrong` is stable; the sentence says what to look at again. */
  | { readonly wrong: 'length' | 'symbol' | 'check' | 'way-up'; readonly sentence: string };

/** Reads a mark as it is typed: lower case, spaces and hyphens do not matter. */
export function readMark(text: string): MarkRead {
  const mark = text.toUpperCase().replace(/[\s-]+/g, '');
  for (const symbol of mark) {
    if (value(symbol) >= 0) continue;
    const meant = MISREAD[symbol];
    const hint = meant === undefined ? '' : ` Is it ${meant}?`;
    return { wrong: 'symbol', sentence: `‘${symbol}’ is in no foot mark.${hint}` };
  }
  if (mark.length !== 5 && mark.length !== 6) {
    return { wrong: 'length', sentence: `A foot mark has 5 or 6 symbols; this has ${mark.length}.` };
  }
  if (weighted(mark) !== 0) {
    return {
      wrong: 'check',
      sentence: `${mark} does not add up: a symbol is misread, or two are the wrong way round. Look at the foot again.`,
    };
  }
  if (!showsWayUp(mark)) {
    return { wrong: 'way-up', sentence: `${mark} was given to no piece: it could be read either way up.` };
  }
  return { mark };
}

export interface Likely {
  readonly mark: string;
  /** How it came to be read as it was. */
  readonly how: 'swapped' | 'misread' | 'missing' | 'turned';
}

/** Symbols that this one is easily taken for, either way round. */
const looksLike = (read: string, meant: string): boolean =>
  (MISREAD[read] ?? '').includes(meant) || TURNED[read] === meant || TURNED[meant] === read;

const sound = (mark: string): boolean =>
  (mark.length === 5 || mark.length === 6) && weighted(mark) === 0 && showsWayUp(mark);

/** One symbol at a place read as another; those that look alike first. */
function misreadings(read: string): Likely[] {
  const wrong = [...read].findIndex((symbol) => value(symbol) < 0);
  const places = wrong < 0 ? [...read].map((_, at) => at) : [wrong];
  const marks = places.flatMap((at) =>
    [...MARK_SYMBOLS]
      .filter((symbol) => symbol !== read[at])
      .map((symbol) => ({
        mark: read.slice(0, at) + symbol + read.slice(at + 1),
        alike: looksLike(read[at]!, symbol),
      })),
  );
  return marks
    .sort((a, b) => Number(b.alike) - Number(a.alike))
    .map(({ mark }) => ({ mark, how: 'misread' as const }));
}

/**
 * Marks that a wrongly read one can have been: two neighbours the wrong way round, the pot held upside
 * down, one symbol misread, one left out. The likeliest first; which of them are on a pot is not known here.
 */
export function likelyMarks(text: string): readonly Likely[] {
  const read = text.toUpperCase().replace(/[\s-]+/g, '');
  if (read.length < 4 || read.length > 6) return [];
  const symbols = [...read];
  const swaps = symbols.slice(1).map((symbol, n) => ({
    mark: read.slice(0, n) + symbol + symbols[n] + read.slice(n + 2),
    how: 'swapped' as const,
  }));
  const turned = symbols
    .map((symbol) => TURNED[symbol] ?? '?')
    .reverse()
    .join('');
  const longer = Array.from({ length: read.length + 1 }, (_, at) =>
    [...MARK_SYMBOLS].map((symbol) => ({
      mark: read.slice(0, at) + symbol + read.slice(at),
      how: 'missing' as const,
    })),
  ).flat();
  const all = [...swaps, { mark: turned, how: 'turned' as const }, ...misreadings(read), ...longer];
  const seen = new Set<string>();
  return all.filter(({ mark }) => {
    const known =
      mark === read || seen.has(mark) || [...mark].some((symbol) => value(symbol) < 0) || !sound(mark);
    seen.add(mark);
    return !known;
  });
}
