/** From typed rows to planned ones: names become handles, owners ids, firings one for all that are in them. */
import type { Bad } from '../records.ts';
import type { FileFiring } from './firings.ts';
import { Firings } from './firings.ts';
import type { Known } from './known.ts';
import type { NotebookRow } from './row.ts';
import type { PlannedRow } from './steps.ts';
import { markKey, rowIdentity } from './steps.ts';

export interface Plan {
  readonly rows: readonly PlannedRow[];
  readonly firings: readonly FileFiring[];
  readonly bad: readonly Bad[];
}

export async function planRows(rows: readonly NotebookRow[], known: Known, currency: string): Promise<Plan> {
  const firings = new Firings(known);
  const planner = new Planner(known, firings, currency);
  const [single, bad] = withoutDuplicates(rows);
  for (const row of single) firings.note(row);
  const planned: PlannedRow[] = [];
  const through = new Set<FileFiring>();
  for (const row of single) {
    const one = await planner.plan(row);
    if (Array.isArray(one)) {
      bad.push(...one);
      continue;
    }
    planned.push(one);
    for (const firing of [one.bisque, one.glaze]) if (firing !== undefined) through.add(firing);
  }
  return { rows: planned, firings: [...through], bad };
}

function withoutDuplicates(rows: readonly NotebookRow[]): [NotebookRow[], Bad[]] {
  const lines = new Map<string, number>();
  const bad: Bad[] = [];
  const single = rows.filter(({ piece, line }) => {
    if (piece === undefined) return true;
    const there = lines.get(markKey(piece));
    if (there === undefined) lines.set(markKey(piece), line);
    else
      bad.push({
        line,
        column: 'piece',
        found: piece,
        expected: `a mark of its own: line ${there} has the same`,
      });
    return there === undefined;
  });
  return [single, bad];
}

class Planner {
  /** How many rows without a mark are alike so far. */
  readonly #places = new Map<string, number>();

  constructor(
    private readonly known: Known,
    private readonly firings: Firings,
    private readonly currency: string,
  ) {}

  async plan(row: NotebookRow): Promise<PlannedRow | Bad[]> {
    const bisque = this.firings.of(row, 'bisque');
    const glaze = this.firings.of(row, 'glaze');
    const bad = [bisque, glaze].filter((one): one is Bad => one !== undefined && 'expected' in one);
    if (bad.length > 0) return bad;
    const day = row.made ?? row.bisque?.day ?? row.glaze?.day ?? row.left?.day;
    const owner = await this.known.owner(row.owner, day);
    const clay = row.clay === undefined ? undefined : this.known.handle('clay', row.clay, day);
    const alike = JSON.stringify([row.made, row.form, clay, owner]);
    const place = this.#places.get(alike) ?? 0;
    if (row.piece === undefined) this.#places.set(alike, place + 1);
    const { of, id: lot } = rowIdentity(row, owner, clay, place);
    return {
      row,
      of,
      lot,
      owner,
      clay,
      glazes: row.glazes.map(({ zone, layers }) => ({
        ...(zone === undefined ? {} : { zone }),
        layers: layers.map(({ glaze: name, coats }) => ({
          glaze: this.known.handle('glaze', name, day),
          coats,
        })),
      })),
      bisque: bisque as FileFiring | undefined,
      glaze: glaze as FileFiring | undefined,
      ...this.#money('price', row.price),
      ...this.#money('secondPrice', row.secondPrice),
    };
  }

  #money(field: 'price' | 'secondPrice', amount: number | undefined): object {
    return amount === undefined ? {} : { [field]: { amount, currency: this.currency } };
  }
}
