/** What several papers of the studio say in the same way. */
import type { PaperCell, Said } from '../../contract/paper.ts';
import { listed, opened, plural } from '../../contract/reports/words.ts';

/** As a firing's report tells it (`reports/firing.ts`). */
export interface LoadRow {
  readonly piece: string;
  readonly mark: string | null;
  readonly form: string | null;
  readonly count: number;
  readonly shelf: number | null;
  readonly position: string | null;
  readonly furniture: readonly string[];
  readonly clayName: string | null;
  readonly glazings: readonly {
    readonly zone: string | null;
    readonly layers: readonly { readonly name: string; readonly coats: number }[];
  }[];
  readonly ownerName: { readonly person: string } | null;
  readonly owner: 'own' | 'commission' | 'student' | 'hire';
  readonly before: {
    readonly faults: readonly { readonly kind: string; readonly zone: string | null }[];
    readonly repairs: readonly string[];
  };
  readonly lastTime: {
    readonly label: string;
    readonly at: string;
    readonly grade: string | null;
    readonly faults: readonly { readonly kind: string; readonly zone: string | null }[];
    readonly repairs: readonly string[];
  } | null;
}

/** '12 × beaker', 'jug'. */
export const whatOf = ({ count, form }: { readonly count: number; readonly form: string | null }): string => {
  const name = form ?? 'piece';
  return count > 1 ? `${count} × ${name}` : name;
};

/** 'outside: Marram Green over Cuttle White × 2', one zone a line. */
export function glazesOf({ glazings }: Pick<LoadRow, 'glazings'>): string {
  return glazings
    .map(({ zone, layers }) => {
      // The topmost is named first, as it is seen.
      const names = layers.toReversed().map(({ name, coats }) => (coats > 1 ? `${name} × ${coats}` : name));
      return `${zone ? `${opened(zone)}: ` : ''}${names.join(' over ')}`;
    })
    .join('\n');
}

const OWNERS = { own: '', commission: 'commission', student: 'student', hire: 'fired for hire' } as const;

/** Empty for the studio's own. */
export function ownerOf({ owner, ownerName }: Pick<LoadRow, 'owner' | 'ownerName'>): Said {
  if (ownerName === null) return OWNERS[owner];
  return [ownerName, OWNERS[owner] === '' ? '' : `\n${OWNERS[owner]}`];
}

const faultSaid = ({ kind, zone }: { readonly kind: string; readonly zone: string | null }): string =>
  `${opened(kind)}${zone ? ` on the ${opened(zone)}` : ''}`;

/** What happened to a piece before: the firing before this one, then what else was seen and mended. */
export function historyOf({ lastTime, before }: Pick<LoadRow, 'lastTime' | 'before'>): string {
  const said: string[] = [];
  if (lastTime) {
    const out = [lastTime.grade, ...lastTime.faults.map(faultSaid)].filter((it) => it !== null);
    said.push(`${lastTime.label}: ${out.length > 0 ? listed(out) : 'nothing seen'}.`);
    if (lastTime.repairs.length > 0) said.push(`Since then: ${listed(lastTime.repairs.map(opened))}.`);
  }
  const told = new Set(lastTime?.faults.map(faultSaid));
  const earlier = [...new Set(before.faults.map(faultSaid))].filter((fault) => !told.has(fault));
  if (earlier.length > 0) said.push(`Seen earlier: ${listed(earlier)}.`);
  return said.join(' ');
}

export interface Shelf {
  readonly title: string;
  readonly rows: readonly LoadRow[];
}

/** From the top shelf down; what has no shelf comes last. */
export function shelvesOf(rows: readonly LoadRow[]): Shelf[] {
  const numbers = [...new Set(rows.map(({ shelf }) => shelf))].sort((a, b) => (a ?? 99) - (b ?? 99));
  return numbers.map((shelf) => {
    const own = rows.filter((row) => row.shelf === shelf);
    const pieces = own.reduce((sum, { count }) => sum + count, 0);
    const name = shelf === null ? 'No shelf noted' : `Shelf ${shelf}${shelf === 1 ? ', the top one' : ''}`;
    return { title: `${name}: ${plural(pieces, 'piece')}`, rows: own };
  });
}

/** A foot mark is read at arm's length. */
export const markCell = (mark: string | null): PaperCell => ({ text: mark ?? '–', weight: 'bold' });
