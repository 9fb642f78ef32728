/** What the draws say of each cause, as rows that add up to the seconds seen. */
import { wilson } from '../../server/contract/statistics/wilson.ts';
import { chanceLargest, type Draws, type Spread, spread } from './noisy-or/draws.ts';
import type { Cause, Model } from './noisy-or/model.ts';

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

const ORDER: readonly RowKind[] = ['glaze', 'clay', 'schedule', 'firing', 'background'];

const rowKind = ({ kind }: Cause): RowKind => (kind === 'bisque' ? 'schedule' : kind);

const column = (of: readonly Float64Array[], n: number) => of.map((draw) => draw[n]!);
const counts = ({ pieces, seconds }: Pick<Cause, 'pieces' | 'seconds'>) => ({
  pieces,
  seconds,
  rate: pieces > 0 ? seconds / pieces : 0,
  ...wilson({ affected: seconds, pieces }),
});
const laidOf = ({ mean, low, high }: Spread) => ({ laid: mean, laidLow: low, laidHigh: high });
const ownOf = ({ mean, low, high }: Spread) => ({ ownRate: mean, ownLow: low, ownHigh: high });

/** A model and what was drawn for it. */
export interface Blame {
  readonly model: Model;
  readonly draws: Draws;
}

function eachCause({ model, draws }: Blame): BlameRow[] {
  const glazes = [...model.causes.keys()].filter((n) => model.causes[n]!.kind === 'glaze');
  const worst = chanceLargest(draws.laid, glazes);
  const highest = chanceLargest(draws.chance, glazes);
  return model.causes.map((cause, n) => ({
    kind: rowKind(cause),
    members: cause.members,
    ...counts(cause),
    ...laidOf(spread(column(draws.laid, n))),
    ...ownOf(spread(column(draws.chance, n))),
    chanceWorst: worst.get(n) ?? null,
    chanceHighestRate: highest.get(n) ?? null,
    lost: draws.lost[n]!,
  }));
}

/** The firings of little account as one row; their own rate is that of one among them. */
function together(those: readonly number[], rows: readonly BlameRow[], { draws }: Blame): BlameRow {
  const add = (of: (row: BlameRow) => number) => those.reduce((sum, n) => sum + of(rows[n]!), 0);
  return {
    kind: 'firing',
    members: those.flatMap((n) => rows[n]!.members),
    rest: true,
    ...counts({ pieces: add((row) => row.pieces), seconds: add((row) => row.seconds) }),
    ...laidOf(spread(draws.laid.map((draw) => those.reduce((sum, n) => sum + draw[n]!, 0)))),
    ...ownOf(spread(those.map((n) => rows[n]!.ownRate))),
    chanceWorst: null,
    chanceHighestRate: null,
    lost: add((row) => row.lost),
  };
}

/** Glazes first, each kind by what is laid at its door. */
export function blameRows(blame: Blame): BlameRow[] {
  const rows = eachCause(blame);
  const isSmall = (row: BlameRow) => row.kind === 'firing' && row.laid < FIRING_OF_ITS_OWN;
  const small = [...rows.keys()].filter((n) => isSmall(rows[n]!));
  const sorted = rows
    .filter((row) => !isSmall(row))
    .sort((x, y) => ORDER.indexOf(x.kind) - ORDER.indexOf(y.kind) || y.laid - x.laid);
  if (small.length === 0) return sorted;
  const background = sorted.findIndex((row) => row.kind === 'background');
  return sorted.toSpliced(background < 0 ? sorted.length : background, 0, together(small, rows, blame));
}
