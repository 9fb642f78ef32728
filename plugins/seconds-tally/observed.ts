/**
 * What is known of the pieces of a time, as the model wants it. A firing is told apart only where it
 * is a cause of its own; all others are read from sums by month and pattern, so that what it takes
 * grows with the kinds of ware and not with the pieces.
 */
import type { Ask } from '../../server/contract/plugin.ts';
import { marks } from '../../server/contract/reports/sql.ts';
import { spansOf } from '../../server/contract/reports/whole-months.ts';
import { type FiringCount, outstanding } from './noisy-or/firings.ts';
import type { Observation } from './noisy-or/model.ts';
import type { Asked } from './period.ts';

export interface Group {
  readonly present: string;
  /** '' or null: they came out well. */
  readonly suspects: string | null;
  readonly pieces: number;
  /** In the studio's currency. */
  readonly lost: number;
}

type Params = (string | number | null)[];

const keysIn = (text: string): string[] => text.split(' ').filter((key) => key !== '');
const owned = (of: Asked): string => `owner IN (${marks(of.owners.length)})`;
const LOST = 'sum(CASE WHEN currency = ? THEN lost ELSE 0 END) AS lost';

function firings(ask: Ask, of: Asked): Promise<FiringCount[]> {
  return ask.query<FiringCount>(
    `SELECT firing, sum(pieces) AS pieces, sum(seconds) AS seconds FROM firing_loads
     WHERE day >= ? AND day <= ? AND ${owned(of)} GROUP BY firing HAVING sum(pieces) > 0`,
    [of.from ?? '', of.to ?? '9999', ...of.owners],
  );
}

/** Piece by piece, with the firing; of some firings only, or of all. */
function told(ask: Ask, of: Asked, some?: readonly string[]): Promise<Group[]> {
  // Found by their firings, not by all the days: a sign before a column keeps SQLite from its index.
  const day = some ? '+day' : 'day';
  return ask.query<Group>(
    `SELECT present, suspects, sum(count) AS pieces, ${LOST} FROM first_firings
     WHERE grade <> '' AND ${day} >= ? AND ${day} <= ? AND ${owned(of)}
       ${some ? `AND firing IN (${marks(some.length)})` : ''}
     GROUP BY present, suspects`,
    [ask.settings.currency, of.from ?? '', of.to ?? '9999', ...of.owners, ...(some ?? [])],
  );
}

async function untold(ask: Ask, of: Asked): Promise<Group[]> {
  const { months, days } = spansOf(of.from, of.to);
  const parts: Promise<Group[]>[] = days.map(([from, to]) =>
    ask.query<Group>(
      `SELECT replace(present, 'firing=' || firing || ' ', '') AS present,
         replace(suspects, 'firing=' || firing || ' ', '') AS suspects, sum(count) AS pieces, ${LOST}
       FROM first_firings WHERE grade <> '' AND day >= ? AND day <= ? AND ${owned(of)} GROUP BY 1, 2`,
      [ask.settings.currency, from, to, ...of.owners],
    ),
  );
  if (months) {
    const params: Params = [ask.settings.currency, ...months, ...of.owners];
    parts.push(
      ask.query<Group>(
        `SELECT present, suspects, sum(pieces) AS pieces, ${LOST} FROM first_patterns
         WHERE month >= ? AND month <= ? AND ${owned(of)} GROUP BY present, suspects`,
        params,
      ),
    );
  }
  return (await Promise.all(parts)).flat();
}

const isFiring = (key: string): boolean => key.startsWith('firing=');

/** Adds groups up by what was there and what is suspected, without the firing where it is not wanted. */
class Gathering {
  private readonly found = new Map<string, Observation & { count: number; lost: number }>();

  add(groups: readonly Group[], sign: 1 | -1, firing: boolean): this {
    for (const { present, suspects, pieces, lost } of groups) {
      const keys = (text: string) => keysIn(text).filter((key) => firing || !isFiring(key));
      const there = keys(present);
      const suspected = suspects ? keys(suspects) : undefined;
      const name = `${there.join(' ')}|${suspected?.join(' ') ?? '-'}`;
      const its = this.found.get(name) ?? {
        present: there,
        ...(suspected ? { suspects: suspected } : {}),
        count: 0,
        lost: 0,
      };
      its.count += sign * pieces;
      its.lost += sign * lost;
      this.found.set(name, its);
    }
    return this;
  }

  /** In an order of their own, so that the same record is answered alike. */
  all(): Observation[] {
    return [...this.found]
      .filter(([, { count }]) => count > 0)
      .toSorted(([x], [y]) => (x < y ? -1 : 1))
      .map(([, it]) => it);
  }
}

/** @param most firings that may be causes of their own */
export async function observedIn(ask: Ask, of: Asked, most?: number): Promise<Observation[]> {
  const own = outstanding(await firings(ask, of), most);
  const theirs = await told(ask, of, own);
  const gathering = new Gathering().add(theirs, 1, true);
  if (own) gathering.add(await untold(ask, of), 1, false).add(theirs, -1, false);
  return gathering.all();
}
