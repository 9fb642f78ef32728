/** What the studio knows by name, and what the notebook adds to it: clays, glazes, schedules, kilns, people. */
import { randomUUID } from 'node:crypto';
import type { Owner } from '../../contract/studio/values.ts';
import { handleOf } from '../../contract/studio/values.ts';
import { stateOf } from '../../host/fold.ts';
import type { Host, Order } from '../../host/host.ts';
import { commandId, contentOf, identity } from './ids.ts';
import type { RowOwner } from './owner.ts';
import type { KnownWords } from './words.ts';

export type Material = 'clay' | 'glaze' | 'schedule' | 'kiln';

const ADD: Readonly<Record<Material, string>> = {
  clay: 'clay.add',
  glaze: 'glaze.add',
  schedule: 'schedule.write',
  kiln: 'kiln.add',
};

interface MaterialsReport {
  readonly rows: readonly { readonly kind: Material; readonly id: string; readonly name: string }[];
  readonly more: {
    readonly words: Readonly<Record<keyof KnownWords, readonly { id: string; name: string }[]>>;
  };
}

export interface Added {
  readonly clays: readonly string[];
  readonly glazes: readonly string[];
  readonly schedules: readonly string[];
  readonly kilns: readonly string[];
  /** Names; an addition is listed once. */
  readonly people: readonly string[];
}

/** Two spellings of a person's name that differ in case or width are one. */
const plainName = (name: string): string => name.normalize('NFKC').replace(/\s+/g, ' ').trim().toLowerCase();

export class Known {
  readonly #names: Record<Material, Map<string, string>> = {
    clay: new Map(),
    glaze: new Map(),
    schedule: new Map(),
    kiln: new Map(),
  };
  /** Ids by handle of the id and of the present name. */
  readonly #handles: Record<Material, Map<string, string>> = {
    clay: new Map(),
    glaze: new Map(),
    schedule: new Map(),
    kiln: new Map(),
  };
  readonly #newMaterials: { kind: Material; id: string; name: string; day?: string }[] = [];
  readonly #people = new Map<string, { person: string; name: string; isNew: boolean; day?: string }>();

  private constructor(
    private readonly host: Host,
    readonly words: KnownWords,
  ) {}

  static async of(host: Host): Promise<Known> {
    const { rows, more } = (await host.report('studio', 'materials', {})) as unknown as MaterialsReport;
    const known = new Known(host, {
      fault: wordIds(more.words.fault),
      repair: wordIds(more.words.repair),
      zone: wordIds(more.words.zone),
    });
    for (const { kind, id, name } of rows) known.#take(kind, id, name);
    return known;
  }

  #take(kind: Material, id: string, name: string): void {
    this.#names[kind].set(id, name);
    this.#handles[kind].set(id, id);
    if (!this.#handles[kind].has(handleOf(name))) this.#handles[kind].set(handleOf(name), id);
  }

  /** The handle for a name; a name not known is added when the file is recorded, from that day. */
  handle(kind: Material, name: string, day?: string): string {
    const asked = handleOf(name);
    const id = this.#handles[kind].get(asked);
    if (id === undefined) {
      this.#take(kind, asked, name);
      this.#newMaterials.push({ kind, id: asked, name, day });
      return asked;
    }
    const isNew = this.#newMaterials.find((one) => one.kind === kind && one.id === id);
    if (isNew !== undefined && day !== undefined && day < (isNew.day ?? '9999')) isNew.day = day;
    return id;
  }

  name(kind: Material, handle: string): string {
    return this.#names[kind].get(handle) ?? handle;
  }

  /** The owner as the log knows them. A name not known yet gets a random id, which says nothing of the name. */
  async owner(owner: RowOwner, day?: string): Promise<Owner> {
    if (owner.kind === 'own') return owner;
    const plain = plainName(owner.name);
    const there = this.#people.get(plain) ?? { ...(await this.#find(owner.name)), day };
    if (day !== undefined && day < (there.day ?? '9999')) there.day = day;
    this.#people.set(plain, there);
    return { kind: owner.kind, person: there.person };
  }

  async #find(name: string): Promise<{ person: string; name: string; isNew: boolean }> {
    const found = (await this.host.people.find(name)).filter(
      (one) => plainName(one.name) === plainName(name),
    );
    for (const { person } of found) {
      const stream = `person:${person}`;
      const entries = (await this.host.log.streams([stream])).get(stream)?.entries ?? [];
      const state = stateOf(stream, entries, this.host.registry) as
        | { name?: unknown; forgotten?: boolean }
        | undefined;
      if (state?.name !== undefined && !state.forgotten) return { person, name, isNew: false };
    }
    return { person: randomUUID(), name, isNew: true };
  }

  /** What must be added before the rows are recorded. */
  orders(by: Pick<Order, 'who' | 'device'>): Order[] {
    const materials = this.#newMaterials.map(({ kind, id, name, day }) => ({
      ...by,
      id: commandId({
        of: identity(kind, id),
        step: 'material',
        generation: 0,
        content: contentOf(name, day ?? null),
      }),
      command: ADD[kind],
      input: { id, name },
      ...(day === undefined ? {} : { happenedAt: day }),
    }));
    const people = this.#added().map(({ person, name, day }) => ({
      ...by,
      id: randomUUID(),
      command: 'person.add',
      input: { person, name },
      ...(day === undefined ? {} : { happenedAt: day }),
    }));
    return [...materials, ...people];
  }

  #added() {
    return [...this.#people.values()].filter(({ isNew }) => isNew);
  }

  added(): Added {
    const of = (kind: Material) =>
      this.#newMaterials.filter((one) => one.kind === kind).map(({ name }) => name);
    const people = this.#added().map(({ name }) => name);
    return { clays: of('clay'), glazes: of('glaze'), schedules: of('schedule'), kilns: of('kiln'), people };
  }
}

function wordIds(words: readonly { id: string; name: string }[]): Map<string, string> {
  return new Map(words.flatMap(({ id, name }) => [[id, id] as const, [handleOf(name), id] as const]));
}
