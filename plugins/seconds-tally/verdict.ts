/** What the numbers come to, in words, and how sure that is. */
import type { BlameRow } from './blame-rows.ts';

/** Below this chance to spoil a piece by itself a glaze may as well do nothing. */
const NOTHING = 0.02;
/** Above this it is plainly a bad glaze. */
const BAD = 0.1;
/** Times the rate of all pieces from which a glaze looks bad. */
const LOOKS_BAD = 1.25;
/** Fewer pieces than this clear no glaze that looks bad. */
const FEW = 20;
/** Chance of being the worst from which the sentence says so without more, and with a 'probably'. */
const SURE = 0.9;
const LIKELY = 0.5;

/** A chance counted over some thousand draws is never certain, not even when all of them agree. */
const percent = (chance: number): string =>
  chance > 0.99 ? 'over 99 %' : chance < 0.01 ? 'under 1 %' : `${Math.round(100 * chance)} %`;

const list = (names: readonly string[]): string =>
  names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;

/** Names of what a glaze was never seen without, other glazes aside. */
export const companions = ({ members }: BlameRow, name: (key: string) => string): string[] =>
  members.filter((key) => !key.startsWith('glaze=')).map(name);

/** Of a glaze: whether it adds seconds of its own, little or none, or whether that cannot be told. */
export function verdict(row: BlameRow, all: number, name: (key: string) => string): string {
  const others = companions(row, name);
  if (others.length > 0) return `cannot be told from ${list(others)}`;
  if (row.ownLow >= NOTHING) return 'adds seconds of its own';
  const looksBad = row.rate > LOOKS_BAD * all;
  if (looksBad && row.pieces >= FEW && row.laidHigh < row.seconds / 2)
    return 'looks bad, but most of its seconds have another cause';
  if (looksBad && row.pieces >= FEW && row.laid < row.seconds / 3)
    return 'looks bad, but most of its seconds probably have another cause';
  return row.ownHigh > BAD ? 'too few to say' : 'little or nothing of its own';
}

const counted = (n: number): string => String(Math.round(n));

export interface Seen {
  readonly pieces: number;
  readonly seconds: number;
}

/** The answer to "which glaze caused the most?". */
export function answerSentence(rows: readonly BlameRow[], seen: Seen, name: (key: string) => string): string {
  if (seen.pieces === 0) return 'No graded pieces in this time.';
  if (seen.seconds === 0) return `No seconds and no wasters among ${seen.pieces} graded pieces.`;
  const glazes = rows.filter(({ kind }) => kind === 'glaze').toSorted((x, y) => y.laid - x.laid);
  const [first, second] = glazes;
  if (!first) return 'No glaze is noted on these pieces.';
  const called = (row: BlameRow) => list(row.members.filter((key) => key.startsWith('glaze=')).map(name));
  const others = companions(first, name);
  if (others.length > 0)
    return `${called(first)} comes first, but was never without ${list(others)}: the record cannot tell them apart.`;
  const chance = first.chanceWorst ?? 0;
  const door = `${counted(first.laid)} of its ${first.seconds} seconds and wasters are laid at its door (between ${counted(first.laidLow)} and ${counted(first.laidHigh)})`;
  if (first.ownLow < NOTHING && first.ownHigh <= BAD)
    return `No glaze stands out: even of ${called(first)}, the first, only about ${door}.`;
  if (chance < LIKELY || first.ownLow < NOTHING)
    return `Too few to say which glaze caused the most: ${called(first)} comes first with a chance of ${percent(chance)}${
      second ? `, then ${called(second)} with ${percent(second.chanceWorst ?? 0)}` : ''
    }.`;
  const how = chance >= SURE ? 'caused' : 'probably caused';
  return `${called(first)} ${how} the most: ${door}; the chance that it is the worst of all is ${percent(chance)}.`;
}
