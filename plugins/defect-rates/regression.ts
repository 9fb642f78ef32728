/** A glaze, the clay and both schedules at once, in one penalised regression: what each does to the odds. */
import { aliased, type Factor, refusalOf } from '../../server/contract/statistics/aliased.ts';
import { type FirthFit, firth, profileLimits } from '../../server/contract/statistics/firth.ts';
import type { Fourfold } from '../../server/contract/statistics/fisher.ts';
import type { Interval } from '../../server/contract/statistics/interval.ts';
import { rank } from '../../server/contract/statistics/matrix.ts';
import type { Names } from './kinds.ts';
import { gathered, type Share } from './strata.ts';

/** Odds of one level over those of its factor's reference level, all else alike. */
export interface FactorOdds extends Interval {
  readonly factor: string;
  readonly level: string;
  /** The level with the most pieces; 'without it' for the glaze. */
  readonly reference: string;
  readonly odds: number;
}

export type Regressed =
  /** The glaze first. `left`: why a level has no odds. */
  | { readonly odds: readonly FactorOdds[]; readonly left: readonly string[] }
  /** The glaze cannot be told from something else. */
  | { readonly refused: string };

interface Row {
  readonly clay: string;
  readonly bisque: string;
  readonly schedule: string;
  readonly glazed: 0 | 1;
  readonly affected: number;
  readonly pieces: number;
}

interface Level {
  readonly factor: string;
  readonly name: string;
  readonly reference: string;
  readonly column: readonly number[];
}

function rowsOf(shares: readonly Share[]): Row[] {
  const split = ({ clay, bisque, schedule }: Share) => [clay, bisque, schedule].join('|');
  return [...gathered(shares, split)].flatMap(([key, { a, b, c, d }]: [string, Fourfold]): Row[] => {
    const [clay, bisque, schedule] = key.split('|') as [string, string, string];
    const both: Row[] = [
      { clay, bisque, schedule, glazed: 1, affected: a, pieces: a + b },
      { clay, bisque, schedule, glazed: 0, affected: c, pieces: c + d },
    ];
    return both.filter(({ pieces }) => pieces > 0);
  });
}

const FACTORS = [
  { field: 'clay', factor: 'clay', names: 'clay_names' },
  { field: 'bisque', factor: 'bisque schedule', names: 'schedule_names' },
  { field: 'schedule', factor: 'glaze schedule', names: 'schedule_names' },
] as const;

/** Every level but the reference, and its 0s and 1s; nothing for a factor of one level. */
function levelsOf(rows: readonly Row[], { field, factor, names }: (typeof FACTORS)[number], known: Names) {
  const pieces = new Map<string, number>();
  for (const row of rows) pieces.set(row[field], (pieces.get(row[field]) ?? 0) + row.pieces);
  const [most, ...others] = [...pieces]
    .toSorted(([x, a], [y, b]) => b - a || (x < y ? -1 : 1))
    .map(([id]) => id);
  const name = (id: string) => (id === '' ? `${factor} not noted` : known[names](id));
  const level = (id: string): Level => ({
    factor,
    name: name(id),
    reference: name(most!),
    column: rows.map((row) => (row[field] === id ? 1 : 0)),
  });
  return { levels: others.map(level), all: others.length > 0 ? [most!, ...others].map(level) : [] };
}

const asFactor = ({ name, column }: Level): Factor => ({ name, columns: [column] });

/** Undefined where there is nothing to compare. */
export function regressed(shares: readonly Share[], glaze: string, names: Names): Regressed | undefined {
  const rows = rowsOf(shares);
  if (rows.length < 2) return undefined;
  const factors = FACTORS.map((factor) => levelsOf(rows, factor, names));
  const mine: Level = {
    factor: 'glaze',
    name: glaze,
    reference: 'without it',
    column: rows.map(({ glazed }) => glazed),
  };
  for (const level of factors.flatMap(({ all }) => all)) {
    const pair = [asFactor(mine), asFactor(level)];
    if (aliased(pair).length === 2) return { refused: refusalOf(pair)! };
  }
  const { kept, left } = telling(
    rows,
    factors.flatMap(({ levels }) => levels),
  );
  const columns = kept.map(({ column }) => column);
  const one = rows.map(() => 1);
  if (rank([one, ...columns, mine.column]) < 2 + columns.length)
    return { refused: refusalOf([mine, ...kept].map(asFactor))! };
  const odds = fitted(rows, [mine, ...kept]);
  return odds && { odds, left };
}

/** Levels that say something new, in order; of the others, which one each cannot be told from. */
function telling(rows: readonly Row[], levels: readonly Level[]): { kept: Level[]; left: string[] } {
  const one = rows.map(() => 1);
  const kept: Level[] = [];
  const left: string[] = [];
  for (const level of levels) {
    const columns = [one, ...kept.map(({ column }) => column)];
    if (rank([...columns, level.column]) > columns.length) {
      kept.push(level);
      continue;
    }
    const twin = kept.find((other) => aliased([asFactor(other), asFactor(level)]).length === 2);
    left.push(
      twin
        ? refusalOf([asFactor(twin), asFactor(level)])!
        : `The record cannot tell ${level.name} from the other clays and schedules together.`,
    );
  }
  return { kept, left };
}

function fitted(rows: readonly Row[], levels: readonly Level[]): FactorOdds[] | undefined {
  const cells = rows.map(({ affected, pieces }, n) => ({
    x: [1, ...levels.map(({ column }) => column[n]!)],
    affected,
    pieces,
  }));
  const fit: FirthFit | undefined = firth(cells);
  if (!fit) return undefined;
  return levels.map(({ factor, name, reference }, n) => {
    const { low, high } = profileLimits(cells, fit, n + 1);
    return {
      ...{ factor, level: name, reference },
      odds: Math.exp(fit.coefficients[n + 1]!),
      low: Math.exp(low),
      high: Math.exp(high),
    };
  });
}
