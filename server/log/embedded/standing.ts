/** The embedded log's standing with its outside head, when it is opened. */
import { NOTHING } from '../chain.ts';
import { type Head, LogDamaged } from '../log.ts';
import { type Disk, OutsideHead } from '../outside-head.ts';
import { HASH_SQL, HEAD_SQL, headFrom, TAIL_SQL } from '../sql.ts';
import { disagreement, missingOutside, Tail, type TailRow } from '../standing.ts';
import type { Connection } from './connection.ts';

export interface Standing {
  readonly outside: OutsideHead | undefined;
  /** Why the log must not be written, in a sentence. */
  readonly damage: string | undefined;
}

/**
 * Brings the outside head up where entries were committed but not yet acknowledged; never moves it
 * back, and never makes a new one for a log that has entries.
 */
export function standing(db: Connection, headFile: string, disk: Disk): Standing {
  const head = headFrom(db.prepare(HEAD_SQL).get() as Head | undefined);
  const outside = openOutside(headFile, disk);
  if (typeof outside === 'string') return { outside: undefined, damage: outside };
  if (outside === undefined) {
    if (head.count > 0) return { outside, damage: missingOutside(headFile, head) };
    return { outside: OutsideHead.create(headFile, NOTHING, disk), damage: undefined };
  }
  const known = outside.read();
  const there = db.prepare(HASH_SQL).get(known.count) as { hash: string } | undefined;
  const damage = disagreement(known, head, there?.hash) ?? brokenTail(db, known);
  if (damage === undefined && known.count < head.count) outside.write(head);
  return { outside, damage };
}

function openOutside(headFile: string, disk: Disk): OutsideHead | string | undefined {
  try {
    return OutsideHead.open(headFile, disk);
  } catch (error) {
    if (error instanceof LogDamaged) return error.message;
    throw error;
  }
}

function brokenTail(db: Connection, known: Head): string | undefined {
  const tail = new Tail(known);
  for (const row of db.prepare(TAIL_SQL).iterate(known.count, -1) as Iterable<TailRow>) {
    const why = tail.step(row);
    if (why !== undefined) return why;
  }
  return undefined;
}
