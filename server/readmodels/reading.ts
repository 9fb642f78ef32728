/** A connection for reports, on one unchanging moment of a read model. */
import { LRUCache } from 'lru-cache';
import type { Connection } from './file.ts';

const PREPARED = 100;

type Statement = ReturnType<Connection['prepare']>;

export class Reading {
  private readonly statements = new LRUCache<string, { asked: Statement; raw: Statement }>({ max: PREPARED });

  /** Seq of the last entry that this moment speaks of. */
  position = 0;
  /** Seq of the entry that last changed one of the tables; of any when none is named. */
  changed: (tables?: readonly string[]) => number = () => this.position;

  constructor(private readonly db: Connection) {}

  private prepare(sql: string) {
    const known = this.statements.get(sql);
    if (known) return known;
    const made = { asked: this.db.prepare(sql), raw: this.db.prepare(sql).raw() };
    this.statements.set(sql, made);
    return made;
  }

  /** Takes hold of the moment at once: what is written from here on is not seen. */
  start(changed: Reading['changed']): void {
    this.db.exec('BEGIN');
    const [row] = this.arrays('SELECT seq FROM wareboard_checkpoint', []) as [[number]];
    this.position = row[0];
    this.changed = changed;
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

  close(): void {
    this.db.close();
  }
}
