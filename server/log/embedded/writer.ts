/**
 * The one writer of the embedded log: a group of appends in one transaction, then the outside head,
 * and only then the answer. Synchronous; it runs in process or on a thread of its own.
 */
import { dirname } from 'node:path';
import { judge, type Outcome } from '../judge.ts';
import { type Head, LogDamaged, LogUnavailable } from '../log.ts';
import { type Disk, type OutsideHead, realDisk, syncFolder } from '../outside-head.ts';
import type { Prepared } from '../prepare.ts';
import { loss } from '../standing.ts';
import { type Connection, connect, damageIn, migrate } from './connection.ts';
import { standing } from './standing.ts';
import { Statements } from './statements.ts';

export interface WriterOptions {
  readonly file: string;
  /** Undefined for a log in memory, which has nothing to lose. */
  readonly headFile: string | undefined;
  /** Milliseconds to wait for another connection's lock. */
  readonly busyTimeout?: number;
  readonly disk?: Disk;
}

export interface Written {
  readonly outcomes: readonly Outcome[];
  readonly head: Head;
}

export class Writer {
  private db: Connection;
  private statements: Statements;
  private outside: OutsideHead | undefined;
  private damage: string | undefined;
  private readonly options: WriterOptions;

  constructor(options: WriterOptions) {
    this.options = options;
    this.db = connect(options.file, options.busyTimeout);
    try {
      migrate(this.db);
      if (options.headFile !== undefined) {
        syncFolder(dirname(options.file));
        const found = standing(this.db, options.headFile, options.disk ?? realDisk);
        this.outside = found.outside;
        this.damage = found.damage;
      }
      this.statements = new Statements(this.db);
    } catch (error) {
      this.close();
      throw error;
    }
  }

  /** The connection, for a log in memory, which cannot be opened a second time. */
  get connection(): Connection {
    return this.db;
  }

  /**
   * @param now UTC instant of the group
   * @throws LogDamaged, LogUnavailable: nothing of the group is acknowledged then
   */
  write(group: readonly Prepared[], now: string): Written {
    if (this.damage !== undefined) throw new LogDamaged(this.damage);
    const written = this.commit(group, now);
    if (this.outside !== undefined && this.outside.read().count !== written.head.count)
      this.recordOutside(written.head);
    return written;
  }

  private commit(group: readonly Prepared[], now: string): Written {
    try {
      this.db.exec('BEGIN IMMEDIATE');
      const state = this.statements.load(group);
      this.refuseLoss(state.count);
      const { outcomes, rows } = judge(group, state, now);
      this.statements.inserter.insert(rows);
      this.db.exec('COMMIT');
      if (this.db.inTransaction) throw new Error('the transaction is still open after its commit');
      return { outcomes, head: { count: state.count, hash: state.hash } };
    } catch (error) {
      this.reconnectAfter(error);
      if (error instanceof LogDamaged) throw error;
      const damage = damageIn(error);
      if (damage !== undefined) throw new LogDamaged(damage, { cause: error });
      throw new LogUnavailable(`The log could not be written: ${reason(error)}.`, { cause: error });
    }
  }

  /** The file may have been put in another's place while it was open. */
  private refuseLoss(count: number): void {
    const acknowledged = this.outside?.read().count ?? 0;
    if (count >= acknowledged) return;
    this.damage = loss(count, acknowledged);
    throw new LogDamaged(this.damage);
  }

  /**
   * libsql's asynchronous client goes on answering OK after one BUSY without committing. The synchronous
   * interface was not seen to, but a connection that has failed is not trusted again.
   */
  private reconnectAfter(error: unknown): void {
    try {
      // A closed connection lives on until its statements are collected: it must not keep the lock.
      if (this.db.open && this.db.inTransaction) this.db.exec('ROLLBACK');
      if (this.options.file === ':memory:') return;
      if (this.db.open) this.db.close();
      this.db = connect(this.options.file, this.options.busyTimeout);
      this.statements = new Statements(this.db);
    } catch (again) {
      // The next write finds the connection closed, fails, and comes here again.
      throw new LogUnavailable(
        `The log could not be written: ${reason(error)}. Nor opened again: ${reason(again)}.`,
      );
    }
  }

  private recordOutside(head: Head): void {
    try {
      this.outside?.write(head);
    } catch (error) {
      throw new LogUnavailable(`The outside head of the log could not be written: ${reason(error)}.`, {
        cause: error,
      });
    }
  }

  close(): void {
    if (this.db.open) {
      this.foldIn();
      this.db.close();
    }
    this.outside?.close();
    this.outside = undefined;
  }

  /** libsql leaves the write-ahead file behind when it closes; a copied folder is simpler without. */
  private foldIn(): void {
    try {
      this.db.prepare('PRAGMA wal_checkpoint(TRUNCATE)').all();
    } catch {
      // Somebody else is reading or writing: what is in the write-ahead file is as safe there.
    }
  }
}

function reason(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
