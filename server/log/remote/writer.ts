/**
 * Writes a group to a libsql server. What the group needs is read first and judged here; the rows then
 * go in one batch, which the database takes only if they carry on from the very entry they were judged
 * on (`entries_in_order`, `entries_chained`). Whoever else wrote in between makes it judge again.
 */
import type { Client, InStatement } from '@libsql/client/http';
import { NOTHING } from '../chain.ts';
import { judge, type Outcome, type Row, type State } from '../judge.ts';
import { type Head, LogDamaged, LogUnavailable } from '../log.ts';
import { OutsideHead } from '../outside-head.ts';
import type { Prepared } from '../prepare.ts';
import {
  COMMANDS_SQL,
  type CommandRow,
  HASH_SQL,
  HEAD_SQL,
  HELD_SQL,
  type HeldRow,
  headFrom,
  LAST_SQL,
  type LastRow,
  namesOf,
  stateFrom,
  TAIL_SQL,
  VERSIONS_SQL,
  type VersionRow,
} from '../sql.ts';
import { disagreement, missingOutside, Tail, type TailRow } from '../standing.ts';
import { rowsOf } from './reader.ts';
import { statementsFor } from './rows.ts';

/** Somebody else writes in between at most a few times; more than this is something else. */
const ATTEMPTS = 50;
const TAIL_PAGE = 1000;

interface Loaded {
  readonly state: State;
  readonly damage: string | undefined;
}

export class RemoteWriter {
  private constructor(
    private readonly client: Client,
    private readonly outside: OutsideHead | undefined,
    private damage: string | undefined,
  ) {}

  /** Brings the outside head up to entries that were not yet acknowledged, by this Wareboard or others. */
  static async open(client: Client, headFile: string): Promise<RemoteWriter> {
    const head = headFrom((await rowsOf<Head>(client, HEAD_SQL))[0]);
    let outside: OutsideHead | undefined;
    try {
      outside = OutsideHead.open(headFile);
    } catch (error) {
      if (error instanceof LogDamaged) return new RemoteWriter(client, undefined, error.message);
      throw error;
    }
    if (outside === undefined) return RemoteWriter.join(client, headFile, head);
    const known = outside.read();
    const [there] = await rowsOf<{ hash: string }>(client, HASH_SQL, [known.count]);
    const tail = new Tail(known);
    const damage = disagreement(known, head, there?.hash) ?? (await brokenTail(client, tail));
    if (damage === undefined && tail.head.count > known.count) outside.write(tail.head);
    return new RemoteWriter(client, outside, damage);
  }

  /** A Wareboard without an outside head joins an empty log only; for others the operator must say so. */
  private static join(client: Client, headFile: string, head: Head): RemoteWriter {
    if (head.count > 0) return new RemoteWriter(client, undefined, missingOutside(headFile, head));
    return new RemoteWriter(client, OutsideHead.create(headFile, NOTHING), undefined);
  }

  async write(
    group: readonly Prepared[],
    now: string,
  ): Promise<{ outcomes: readonly Outcome[]; head: Head }> {
    for (let attempt = 1; ; attempt++) {
      const { state, damage } = await this.load(group);
      this.damage ??= damage;
      if (this.damage !== undefined) throw new LogDamaged(this.damage);
      const { outcomes, rows } = judge(group, state, now);
      const head = { count: state.count, hash: state.hash };
      if (!(await this.put(rows, attempt))) continue;
      if (this.outside!.read().count !== head.count) this.outside!.write(head);
      return { outcomes, head };
    }
  }

  private async load(group: readonly Prepared[]): Promise<Loaded> {
    const names = namesOf(group);
    const known = this.outside?.read() ?? NOTHING;
    const list = (values: readonly string[]) => [JSON.stringify(values)];
    const results = await this.reach(() =>
      this.client.batch(
        [
          LAST_SQL,
          { sql: COMMANDS_SQL, args: list(names.commands) },
          { sql: VERSIONS_SQL, args: list(names.streams) },
          { sql: HELD_SQL, args: list(names.claims) },
          { sql: HASH_SQL, args: [known.count] },
        ],
        'read',
      ),
    );
    const [last, commands, versions, held, there] = results.map((result) => result.rows as unknown[]);
    const state = stateFrom({
      last: last![0] as LastRow | undefined,
      commands: commands as CommandRow[],
      versions: versions as VersionRow[],
      held: held as HeldRow[],
    });
    return { state, damage: disagreement(known, state, (there![0] as { hash: string } | undefined)?.hash) };
  }

  /** False when somebody else was quicker. */
  private async put(rows: readonly Row[], attempt: number): Promise<boolean> {
    if (rows.length === 0) return true;
    const statements: InStatement[] = statementsFor(rows);
    try {
      await this.client.batch(statements, 'write');
      return true;
    } catch (error) {
      const { code, message } = error as { code?: string; message: string };
      const overtaken =
        /CONSTRAINT|BUSY|LOCKED/.test(code ?? '') || /append-only|UNIQUE|held already/.test(message);
      if (overtaken && attempt < ATTEMPTS) return false;
      throw new LogUnavailable(`The log server did not take the entries: ${message}.`, { cause: error });
    }
  }

  private async reach<T>(ask: () => Promise<T>): Promise<T> {
    try {
      return await ask();
    } catch (error) {
      throw new LogUnavailable(`The log server cannot be reached: ${(error as Error).message}.`, {
        cause: error,
      });
    }
  }

  close(): void {
    this.outside?.close();
  }
}

async function brokenTail(client: Client, tail: Tail): Promise<string | undefined> {
  for (;;) {
    const page = await rowsOf<TailRow>(client, TAIL_SQL, [tail.head.count, TAIL_PAGE]);
    for (const row of page) {
      const why = tail.step(row);
      if (why !== undefined) return why;
    }
    if (page.length < TAIL_PAGE) return undefined;
  }
}
