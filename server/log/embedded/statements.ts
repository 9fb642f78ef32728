/** The prepared statements of the writing connection. */
import type { State } from '../judge.ts';
import type { Prepared } from '../prepare.ts';
import {
  COMMANDS_SQL,
  type CommandRow,
  HELD_SQL,
  type HeldRow,
  LAST_SQL,
  type LastRow,
  namesOf,
  stateFrom,
  VERSIONS_SQL,
  type VersionRow,
} from '../sql.ts';
import type { Connection } from './connection.ts';
import { Inserter } from './insert.ts';

export class Statements {
  readonly inserter: Inserter;
  private readonly last;
  private readonly commands;
  private readonly versions;
  private readonly held;

  constructor(db: Connection) {
    this.inserter = new Inserter(db);
    this.last = db.prepare(LAST_SQL);
    this.commands = db.prepare(COMMANDS_SQL);
    this.versions = db.prepare(VERSIONS_SQL);
    this.held = db.prepare(HELD_SQL);
  }

  /** What the log holds, as far as the group asks. */
  load(group: readonly Prepared[]): State {
    const { commands, streams, claims } = namesOf(group);
    return stateFrom({
      last: this.last.get() as LastRow | undefined,
      commands: this.commands.all(JSON.stringify(commands)) as CommandRow[],
      versions: this.versions.all(JSON.stringify(streams)) as VersionRow[],
      held: claims.length === 0 ? [] : (this.held.all(JSON.stringify(claims)) as HeldRow[]),
    });
  }
}
