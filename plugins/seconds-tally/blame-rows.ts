/** What the draws say of each cause, as rows that add up to the seconds seen. */
import type { Blame } from './blame.ts';
import { chanceLargest, type Spread, spread } from './noisy-or/draws.ts';
import type { Cause } from './noisy-or/model.ts';
import { wilson } from './wilson.ts';

export type RowKind = 'glaze' | 'clay' | 'schedule' | 'firing' | 'background';

export interface BlameRow {
  readonly kind: RowKind;
  /** Keys of the causes that the row stands for; more than one where they cannot be told apart. */
  readonly members: readonly string[];
  /** All firings that do not have a row of their own. */
  readonly rest?: true;
  readonly pieces: number;
  readonly seconds: number;
  /** Seconds to pieces, with Wilson's interval of 95 %. */
  readonly rate: number;
  readonly low: number;
  readonly high: number;
  /** Seconds laid at its door: mean of the draws, and what 90 % of them lie between. */
  readonly laid: number;
  readonly laidLow: number;
  readonly laidHigh: number;
  /** The chance that it alone spoils a piece, likewise. */
  readonly ownRate: number;
  readonly ownLow: number;
  readonly ownHigh: number;
  /** Share of draws in which no other glaze has more laid at its door, or a larger chance. */
  readonly chanceWorst: number | null;
  readonly chanceHighestRate: number | null;
  /** Minor units of the studio's currency. */
  readonly lost: number;
}

/** A firing has a row of its own when this many seconds are laid at its door. */
const FIRING_OF_ITS_OWN = 1;

const rowKind = ({ kind }: Cause): RowKind => (kind === 'bisque' ? 'schedule' : kind);

export function blameRows({ model, draws }: Blame): BlameRow[] {
  const column = (of: readonly Float64Array[], n: number) => of.map((draw) => draw[n]!);
  const glazes = [...model.causes.keys()].filter((n) => model.causes[n]!.kind === 'glaze');
  const worst = chanceLargest(draws.laid, glazes);
  const highest = chanceLargest(draws.chance, glazes);
  const counts = ({ pieces, seconds }: Pick<Cause, 'pieces' | 'seconds'>) => ({
    pieces,
    seconds,
    rate: pieces > 0 ? seconds / pieces : 0,
    ...wilson(seconds, pieces),
  });
  const laidOf = ({ mean, low, high }: Spread) => ({ laid: mean, laidLow: low, laidHigh: high });
  const chanceOf = ({ mean, low, high }: Spread) => ({ ownRate: mean, ownLow: low, ownHigh: high });

  const rows = model.causes.map((cause, n) => ({
    kind: rowKind(cause),
    members: cause.members,
    ...counts(cause),
    ...laidOf(spread(column(draws.laid, n))),
    ...chanceOf(spread(column(draws.chance, n))),
    chanceWorst: worst.get(n) ?? null,
    chanceHighestRate: highest.get(n) ?? null,
    lost: draws.lost[n]!,
  }));
  const isSmall = (row: BlameRow) => row.kind === 'firing' && row.laid < FIRING_OF_ITS_OWN;
  const small = [...rows.keys()].filter((n) => isSmall(rows[n]!));
  const order: readonly RowKind[] = ['glaze', 'clay', 'schedule', 'firing', 'background'];
  const sorted: BlameRow[] = rows
    .filter((row) => !isSmall(row))
    .sort((x, y) => order.indexOf(x.kind) - order.indexOf(y.kind) || y.laid - x.laid);
  if (small.length === 0) return sorted;
  const add = (of: (row: BlameRow) => number) => small.reduce((sum, n) => sum + of(rows[n]!), 0);
  const together = (of: readonly Float64Array[]) =>
    spread(of.map((draw) => small.reduce((sum, n) => sum + draw[n]!, 0)));
  const rest: BlameRow = {
    kind: 'firing',
    members: small.flatMap((n) => rows[n]!.members),
    rest: true,
    ...counts({ pieces: add((row) => row.pieces), seconds: add((row) => row.seconds) }),
    ...laidOf(together(draws.laid)),
    /* Each piece was in one of them: the chance of the middling firing. */
    ...chanceOf(spread(small.map((n) => rows[n]!.ownRate))),
    chanceWorst: null,
    chanceHighestRate: null,
    lost: add((row) => row.lost),
  };
  const background = sorted.findIndex((row) => row.kind === 'background');
  return sorted.toSpliced(background < 0 ? sorted.length : background, 0, rest);
}
