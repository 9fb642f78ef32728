/** Writes the changes of one batch into a read model: differences only, sums by what they change. */
import type { Connection } from './file.ts';
import { cellSql, deleteEarlySql, deleteStreamSql, insertSql, type TablePlan, type Value } from './tables.ts';

type Statement = ReturnType<Connection['prepare']>;

/** Parameters in one statement; more gain nothing. */
const PARAMETERS = 800;

/** Writes one table. While a file is building, rows that were written too early are removed at its end. */
export interface TableWriter {
  put(stream: string, before: readonly Value[][], after: readonly Value[][]): void;
  /** Everything of the batch is in the file when it has run out; between its steps others may have their turn. */
  flush(): Iterable<void>;
  /** Last thing done to a new file, when its indexes are there. */
  complete(): void;
  /** Whether anything was put that made a difference since this was last asked. */
  takeTouched(): boolean;
}

export function tableWriter(db: Connection, plan: TablePlan, building: boolean): TableWriter {
  return plan.sums === undefined ? new FactsWriter(db, plan, building) : new CellsWriter(db, plan, building);
}

export function same(before: readonly Value[][], after: readonly Value[][]): boolean {
  return (
    before.length === after.length &&
    before.every((row, i) => row.every((value, k) => value === after[i]![k]))
  );
}

export class FactsWriter implements TableWriter {
  private readonly width: number;
  private readonly rowsAtOnce: number;
  private readonly many: Statement;
  private readonly one: Statement;
  private readonly removal: Statement;
  private pending: Value[] = [];
  /** Rows in the file, and how many of them were there when the batch began: their rowids count from 1. */
  private written = 0;
  private earlier = 0;
  private readonly early: Map<string, number> | undefined;
  private touched = false;

  constructor(
    private readonly db: Connection,
    private readonly plan: TablePlan,
    building: boolean,
  ) {
    this.width = plan.fields.length + 1;
    this.rowsAtOnce = Math.max(1, Math.floor(PARAMETERS / this.width));
    this.many = db.prepare(insertSql(plan, this.rowsAtOnce));
    this.one = db.prepare(insertSql(plan, 1));
    this.removal = db.prepare(deleteStreamSql(plan));
    // Without an index on `stream` a removal would walk the whole table; a unique table cannot wait with it.
    if (building && !plan.unique) this.early = new Map();
  }

  put(stream: string, before: readonly Value[][], after: readonly Value[][]): void {
    if (same(before, after)) return;
    this.touched = true;
    if (before.length > 0) {
      if (this.early) this.early.set(stream, this.earlier);
      else this.removal.run([stream]);
    }
    for (const row of after) {
      for (const value of row) this.pending.push(value);
      this.pending.push(stream);
    }
    // Where the database refuses two rows alike, all old ones of the batch go before a new one comes.
    if (!this.plan.unique && this.pending.length >= this.rowsAtOnce * this.width) this.insert();
  }

  private insert(): void {
    const full = this.rowsAtOnce * this.width;
    let at = 0;
    for (; at + full <= this.pending.length; at += full) this.many.run(this.pending.slice(at, at + full));
    this.written += at / this.width;
    this.pending = this.pending.slice(at);
  }

  *flush(): Generator<void> {
    this.insert();
    for (let at = 0; at < this.pending.length; at += this.width)
      this.one.run(this.pending.slice(at, at + this.width));
    this.written += this.pending.length / this.width;
    this.pending = [];
    this.earlier = this.written;
    yield;
  }

  /** Removes what a later batch of the same build replaced. */
  complete(): void {
    const removal = this.db.prepare(deleteEarlySql(this.plan));
    for (const [stream, until] of this.early ?? []) removal.run([stream, until]);
  }

  takeTouched(): boolean {
    const touched = this.touched;
    this.touched = false;
    return touched;
  }
}

/** Each value after its length, so that no two keys read alike. */
function nameOf(key: readonly Value[]): string {
  let name = '';
  for (const value of key) {
    if (value === null) name += '-';
    else {
      const text = String(value);
      name += `${text.length}:${text}`;
    }
  }
  return name;
}

export class CellsWriter implements TableWriter {
  private readonly changes = new Map<string, { key: Value[]; sums: number[] }>();
  private readonly keys: number;
  private readonly add: Statement;
  private readonly insertNull: Statement;
  private readonly update: Statement;
  private readonly clear: Statement;
  private readonly sweep: Statement;
  private touched = false;

  constructor(
    db: Connection,
    plan: TablePlan,
    private readonly building: boolean,
  ) {
    this.keys = plan.fields.length - plan.sums!;
    const sql = cellSql(plan);
    this.add = db.prepare(sql.add);
    this.insertNull = db.prepare(sql.insert);
    this.update = db.prepare(sql.update);
    this.clear = db.prepare(sql.clear);
    this.sweep = db.prepare(sql.sweep);
  }

  put(_stream: string, before: readonly Value[][], after: readonly Value[][]): void {
    if (same(before, after)) return;
    this.touched = true;
    for (const row of before) this.change(row, -1);
    for (const row of after) this.change(row, 1);
  }

  private change(row: readonly Value[], sign: 1 | -1): void {
    const key = row.slice(0, this.keys);
    const name = nameOf(key);
    let change = this.changes.get(name);
    if (!change) {
      change = { key, sums: Array(row.length - this.keys).fill(0) as number[] };
      this.changes.set(name, change);
    }
    for (let at = this.keys; at < row.length; at++)
      change.sums[at - this.keys]! += sign * (row[at] as number);
  }

  *flush(): Generator<void> {
    for (const { key, sums } of this.changes.values()) {
      if (sums.every((sum) => sum === 0)) continue;
      if (!key.includes(null)) this.add.run([...key, ...sums]);
      else if (this.update.run([...sums, ...key]).changes === 0) this.insertNull.run([...key, ...sums]);
      if (!this.building) this.clear.run(key);
      yield;
    }
    this.changes.clear();
  }

  complete(): void {
    this.sweep.run([]);
  }

  takeTouched(): boolean {
    const touched = this.touched;
    this.touched = false;
    return touched;
  }
}
