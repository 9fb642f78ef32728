/** One plugin's read model: its file, where it stands in the log, and the batch being written into it. */
import { LRUCache } from 'lru-cache';
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
  private idle: Reading[] = [];
  /** Counts the files, so that a reading of an earlier one is not used again. */
  private files = 0;

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
    this.prepare();
  }

  private prepare(): void {
    const db = this.db!;
    this.writers = new Map(this.plan.tables.map((table) => [table, tableWriter(db, table, this.building)]));
  }

  begin(): void {
    this.db!.exec('BEGIN IMMEDIATE');
  }

  put(projection: ProjectionPlan, stream: string, key: string, before: StateOf, after: StateOf): void {
    const old = before && projection.rows(before.state as never, key);
    const now = after && projection.rows(after.state as never, key);
    for (const name in now) if (!projection.tables.has(name)) throw new Error(`projection ${projection.name} has no table ${name}`);
    for (const table of projection.list) {
      const writer = this.writers!.get(table)!;
      writer.put(stream, values(projection, table, old), values(projection, table, now));
    }
  }

  commit(seq: number, mark: string, events: ReadonlyMap<string, EventCount>): void {
    const db = this.db!;
    for (const writer of this.writers!.values()) writer.flush();
    const count = db.prepare(`INSERT INTO wareboard_events VALUES (?, ?, ?)
      ON CONFLICT (name) DO UPDATE SET entries = entries + excluded.entries, last = excluded.last`);
    for (const it of events.values()) count.run([it.name, it.entries, it.last]);
    db.exec('DELETE FROM wareboard_checkpoint');
    db.prepare('INSERT INTO wareboard_checkpoint VALUES (?, ?, ?)').run([seq, mark, this.plan.signature]);
    db.exec('COMMIT');
    if (db.inTransaction) throw new Error('the transaction is still open after its commit');
    this.seq = seq;
  }

  /** Takes the batch back. A building file has no journal to do it with, so it begins again. */
  rollback(): void {
    if (this.building) return this.startAgain();
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
    reading.start();
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

function values(projection: ProjectionPlan, table: TablePlan, rows: ReturnType<ProjectionPlan['rows']> | undefined) {
  if (rows === undefined) return NONE;
  const made: Value[][] = [];
  for (const name in rows) {
    if (projection.tables.get(name) !== table) continue;
    for (const row of rows[name]!) made.push(valuesOf(table, row));
  }
  return made;
}

const NONE: readonly Value[][] = [];
const PREPARED = 100;

type Statement = ReturnType<Connection['prepare']>;

/** A reading connection with its prepared statements. */
export class Reading {
  private readonly statements = new LRUCache<string, { asked: Statement; raw: Statement }>({ max: PREPARED });

  constructor(private readonly db: Connection) {}

  private prepare(sql: string) {
    const known = this.statements.get(sql);
    if (known) return known;
    const made = { asked: this.db.prepare(sql), raw: this.db.prepare(sql).raw() };
    this.statements.set(sql, made);
    return made;
  }

  start(): void {
    this.db.exec('BEGIN');
  }

  end(): void {
    if (this.db.inTransaction) this.db.exec('ROLLBACK');
  }

  rows(sql: string, params: readonly unknown[]): Record<string, unknown>[] {
    return this.prepare(sql).asked.all(params) as Record<string, unknown>[];
  }

  arrays(sql: string, params: readonly unknown[]): unknown[][] {
    return this.prepare(sql).raw.all(params) as unknown[][];
  }

  /** Seq of the last entry that this moment speaks of. */
  seq(): number {
    const [row] = this.arrays('SELECT seq FROM wareboard_checkpoint', []) as [[number]];
    return row[0];
  }

  close(): void {
    this.db.close();
  }
}
