/** One plugin's read model: its file, where it stands in the log, and the batch being written into it. */
import {
  buildingPath,
  type Connection,
  connectReader,
  createBuilding,
  discard,
  finishBuilding,
  openExisting,
} from './file.ts';
import type { ModelPlan, ProjectionPlan } from './plan.ts';
import { Reading } from './reading.ts';
import { type TablePlan, type Value, valuesOf } from './tables.ts';
import { type TableWriter, tableWriter } from './writer.ts';

/** Reads entry `seq` of the log and says what it is, to tell this log from another. */
export type MarkOf = (seq: number) => Promise<string | undefined>;

/** A stream's state, or that the stream has nothing that counts. */
export type StateOf = { readonly state: unknown } | undefined;

export interface EventCount {
  readonly name: string;
  readonly entries: number;
  /** Seq of the newest. */
  readonly last: number;
}

/** Connections kept for reports that run at the same time. */
const IDLE_READERS = 4;

export class ReadModel {
  /** Seq of the last entry its rows speak of. */
  seq = 0;
  /** Why it does not follow the log, in a sentence that names the plugin. */
  failed: Error | undefined;
  private db: Connection | undefined;
  private building = false;
  private writers: Map<TablePlan, TableWriter> | undefined;
  private own: Record<'count' | 'stand', ReturnType<Connection['prepare']>> | undefined;
  private idle: Reading[] = [];
  /** Counts the files, so that a reading of an earlier one is not used again. */
  private files = 0;
  /** By table, the seq at the end of the last batch that changed it; where it is not known, the whole file's at its opening. */
  private changes = new Map<string, number>();
  private openedAt = 0;

  constructor(
    readonly plan: ModelPlan,
    readonly path: string,
    /** Synced before it is served; one that is removed at the next start need not be. */
    private readonly lasting = true,
  ) {}

  get isBuilding(): boolean {
    return this.building;
  }

  /** Takes the file as it is when it fits this plugin and this log; otherwise begins a new one. */
  async open(markOf: MarkOf): Promise<void> {
    const found = openExisting(this.path, this.plan);
    if (found) {
      const { seq, mark } = found.checkpoint;
      if (seq === 0 || (await markOf(seq)) === mark) {
        this.db = found.db;
        this.seq = seq;
        this.openedAt = seq;
        this.prepare();
        return;
      }
      found.db.close();
    }
    this.startAgain();
  }

  /** Throws the rows away. */
  startAgain(): void {
    this.close();
    discard(this.path);
    this.db = createBuilding(this.path, this.plan);
    this.building = true;
    this.seq = 0;
    this.openedAt = 0;
    this.changes.clear();
    this.prepare();
  }

  private prepare(): void {
    const db = this.db!;
    this.writers = new Map(this.plan.tables.map((table) => [table, tableWriter(db, table, this.building)]));
    this.own = {
      count: db.prepare(`INSERT INTO wareboard_events VALUES (?, ?, ?)
        ON CONFLICT (name) DO UPDATE SET entries = entries + excluded.entries, last = excluded.last`),
      stand: db.prepare('UPDATE wareboard_checkpoint SET seq = ?, mark = ?'),
    };
  }

  begin(): void {
    this.db!.exec('BEGIN IMMEDIATE');
  }

  /** Writes what a stream's rows have come to. */
  put(
    { name, rows, tables }: ProjectionPlan,
    stream: string,
    key: string,
    before: StateOf,
    after: StateOf,
  ): void {
    const old = before ? rows(before.state as never, key) : NO_ROWS;
    const now = after ? rows(after.state as never, key) : NO_ROWS;
    for (const table in now)
      if (!tables.has(table)) throw new Error(`projection ${name} has no table ${table}`);
    for (const table of tables.values())
      this.writers!.get(table)!.put(stream, valuesIn(table, old), valuesIn(table, now));
  }

  /** Brings all of the batch into the file, step by step; `commit` comes after it. */
  *flushing(): Generator<void> {
    for (const writer of this.writers!.values()) yield* writer.flush();
  }

  commit(seq: number, mark: string, events: ReadonlyMap<string, EventCount>): void {
    const { count, stand } = this.own!;
    for (const it of events.values()) count.run([it.name, it.entries, it.last]);
    stand.run([seq, mark]);
    this.db!.exec('COMMIT');
    if (this.db!.inTransaction) throw new Error('the transaction is still open after its commit');
    this.seq = seq;
    for (const [{ name }, writer] of this.writers!) if (writer.takeTouched()) this.changes.set(name, seq);
  }

  /** When which table changed, as it is now. */
  private stamps(): Reading['changed'] {
    const [changes, openedAt] = [new Map(this.changes), this.openedAt];
    return (tables = this.plan.tables.map(({ name }) => name)) =>
      Math.max(0, ...tables.map((table) => changes.get(table) ?? openedAt));
  }

  /** Takes the batch back. A building file has no journal to do it with, so it begins again. */
  rollback(): void {
    if (this.building) {
      this.startAgain();
      return;
    }
    if (this.db!.inTransaction) this.db!.exec('ROLLBACK');
    this.prepare();
  }

  /** Makes the indexes of a new file, one step at a time, and gives the file its name. */
  *finishing(): Generator<void> {
    const db = this.db!;
    for (const table of this.plan.tables)
      for (const index of table.indexes) {
        db.exec(index);
        yield;
      }
    db.exec('BEGIN IMMEDIATE');
    for (const writer of this.writers!.values()) {
      writer.complete();
      yield;
    }
    db.exec('COMMIT');
    db.exec('PRAGMA optimize');
    this.db = finishBuilding(db, this.path, this.lasting);
    this.building = false;
    this.prepare();
  }

  /** All entries that were read on the way to the checkpoint, by the name of their event. */
  events(): EventCount[] {
    return this.db!.prepare('SELECT name, entries, last FROM wareboard_events').all() as EventCount[];
  }

  /** Runs `work` on one unchanging moment of the read model. */
  async reading<T>(work: (reading: Reading) => Promise<T>): Promise<T> {
    if (this.building) throw new Error(`${buildingPath(this.path)} is not complete`);
    const file = this.files;
    const reading = this.idle.pop() ?? new Reading(connectReader(this.path));
    reading.start(this.stamps());
    try {
      return await work(reading);
    } finally {
      reading.end();
      if (file === this.files && this.idle.length < IDLE_READERS) this.idle.push(reading);
      else reading.close();
    }
  }

  remove(): void {
    this.close();
    discard(this.path);
  }

  close(): void {
    for (const reading of this.idle.splice(0)) reading.close();
    this.db?.close();
    this.db = undefined;
    this.building = false;
    this.files++;
  }
}

const NO_ROWS: ReturnType<ProjectionPlan['rows']> = {};

const valuesIn = (table: TablePlan, rows: ReturnType<ProjectionPlan['rows']>): Value[][] =>
  rows[table.name]?.map((row) => valuesOf(table, row)) ?? [];
