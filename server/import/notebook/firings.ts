/** The firings that the rows speak of: one for the same label, kiln and day. */
import type { Bad } from '../records.ts';
import { named } from './ids.ts';
import type { Known } from './known.ts';
import type { NotebookRow, RowFiring } from './row.ts';

export type Role = 'bisque' | 'glaze';

export interface FileFiring {
  /** As the first part of its commands' ids. */
  readonly of: string;
  /** Its id in the studio: its own, or that of one recorded there before. */
  id: string;
  readonly role: Role;
  readonly label: string;
  readonly kiln: string;
  /** Absent when no row tells it. */
  readonly day?: string;
  schedule?: string;
  /** What the studio has of its schedule, where the file says nothing. */
  studioSchedule?: string;
  /** It had ended or was drawn before this import: what it says now is noted afterwards, on that day. */
  late?: { readonly afterwards: 'ended' | 'drawn'; readonly day: string };
  /** Line of the first row that is in it, and of the first that names its schedule. */
  readonly line: number;
  scheduleLine?: number;
}

/** Stands for a kiln that the notebook does not name. */
export const KILN_NOT_NOTED = 'Kiln not noted';

const COLUMNS = {
  bisque: { label: 'bisque_firing', day: 'bisque_fired', schedule: 'bisque_schedule' },
  glaze: { label: 'glaze_firing', day: 'glaze_fired', schedule: 'glaze_schedule' },
} as const;

/** What is known of the firings with one label. */
interface Labelled {
  /** Days and kilns that stand beside it. */
  readonly days: Set<string>;
  readonly kilns: Map<string, Set<string>>;
  /** The last day on which a piece of it was at an earlier stage: it cannot have been fired before. */
  notBefore?: string;
}

export class Firings {
  readonly all = new Map<string, FileFiring>();
  readonly #labels = new Map<string, Labelled>();

  constructor(private readonly known: Known) {}

  /** First pass: what stands beside each label. */
  note(row: NotebookRow): void {
    for (const role of ['bisque', 'glaze'] as const) {
      const said = row[role];
      if (said?.label === undefined) continue;
      const labelled = this.#labelled(role, said.label);
      if (said.day !== undefined) labelled.days.add(said.day);
      if (said.kiln !== undefined) {
        const kilns = labelled.kilns.get(said.day ?? '') ?? new Set();
        labelled.kilns.set(said.day ?? '', kilns.add(this.known.handle('kiln', said.kiln, said.day)));
      }
      const before = role === 'glaze' ? (row.bisque?.day ?? row.made) : row.made;
      if (before !== undefined && before > (labelled.notBefore ?? '')) labelled.notBefore = before;
    }
  }

  /** Second pass: the firing that the row means; or what is missing to tell it from another. */
  of(row: NotebookRow, role: Role): FileFiring | Bad | undefined {
    const said = row[role];
    if (said === undefined) return undefined;
    const day = this.#day(said, role);
    if (day === 'several') {
      return {
        line: row.line,
        column: COLUMNS[role].day,
        found: '',
        expected: `the day of the firing: there are several called ${said.label}`,
      };
    }
    return this.#scheduled(this.#firing(said, role, day, row.line), said, row.line);
  }

  #day(said: RowFiring, role: Role): string | undefined {
    if (said.day !== undefined || said.label === undefined) return said.day;
    const { days } = this.#labelled(role, said.label);
    return days.size > 1 ? 'several' : [...days][0];
  }

  #firing(said: RowFiring, role: Role, day: string | undefined, line: number): FileFiring {
    const beside =
      said.label === undefined || said.kiln !== undefined
        ? undefined
        : this.#labelled(role, said.label).kilns;
    const others = new Set([...(beside?.get(day ?? '') ?? []), ...(beside?.get('') ?? [])]);
    const where =
      others.size === 1 ? [...others][0]! : this.known.handle('kiln', said.kiln ?? KILN_NOT_NOTED, day);
    const own = named('firing', said.label ?? null, where, day ?? null, role);
    const there = this.all.get(own.id);
    if (there !== undefined) return there;
    const label = said.label ?? [this.known.name('kiln', where), role, day].filter(Boolean).join(' ');
    const happened = day ?? this.#labelled(role, label).notBefore;
    const firing: FileFiring = {
      ...own,
      role,
      label,
      kiln: where,
      line,
      ...(happened === undefined ? {} : { day: happened }),
    };
    this.all.set(own.id, firing);
    return firing;
  }

  #scheduled(firing: FileFiring, said: RowFiring, line: number): FileFiring | Bad {
    if (said.schedule === undefined) return firing;
    const schedule = this.known.handle('schedule', said.schedule, firing.day);
    if (firing.schedule === undefined) {
      firing.schedule = schedule;
      firing.scheduleLine = line;
    }
    if (firing.schedule === schedule) return firing;
    return {
      line,
      column: COLUMNS[firing.role].schedule,
      found: said.schedule,
      expected: `${this.known.name('schedule', firing.schedule)}, as line ${firing.scheduleLine} says of ${firing.label}`,
    };
  }

  #labelled(role: Role, label: string): Labelled {
    const key = `${role} ${label}`;
    const there = this.#labels.get(key) ?? { days: new Set(), kilns: new Map() };
    this.#labels.set(key, there);
    return there;
  }
}
