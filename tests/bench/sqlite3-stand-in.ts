/**
 * The peer's driver, `sqlite3`, is built by an install script, which this project does not run. Where
 * it is not built, this stands in for the few calls the peer makes, over the libsql package.
 */
import Database from 'libsql';

type Done = (this: { changes: number }, error: Error | null, result?: unknown) => void;

class StandIn {
  private readonly db: Database.Database;

  constructor(file: string) {
    this.db = new Database(file);
  }

  run(sql: string, ...rest: unknown[]): void {
    this.answer(sql, rest, (rows) => rows);
  }

  all(sql: string, ...rest: unknown[]): void {
    this.answer(sql, rest, (rows) => rows);
  }

  get(sql: string, ...rest: unknown[]): void {
    this.answer(sql, rest, (rows) => rows[0]);
  }

  close(): void {
    this.db.close();
  }

  private answer(sql: string, rest: unknown[], pick: (rows: unknown[]) => unknown): void {
    const done = rest.find((it): it is Done => typeof it === 'function');
    const values = ((rest.find((it) => Array.isArray(it)) as unknown[]) ?? []).map(bindable);
    let error: Error | null = null;
    let result: unknown;
    let changes = 0;
    try {
      const statement = this.db.prepare(sql);
      if (statement.reader) result = pick(statement.all(...values));
      else ({ changes } = statement.run(...values));
    } catch (thrown) {
      error = thrown as Error;
    }
    if (done) setImmediate(() => done.call({ changes }, error, result));
  }
}

/** As sqlite3 itself binds: nothing as NULL, a boolean as a number, anything else as text. */
function bindable(value: unknown): unknown {
  if (value === undefined || value === null) return null;
  if (typeof value === 'boolean') return Number(value);
  return ['string', 'number', 'bigint'].includes(typeof value) ? value : String(value);
}

export default { Database: StandIn, OPEN_URI: 64, OPEN_READWRITE: 2, OPEN_CREATE: 4 };
