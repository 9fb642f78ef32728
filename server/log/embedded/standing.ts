/** What the log and its outside head say of each other when the log is opened. */
import { NOTHING, type Sealed, sha256 } from '../chain.ts';
import { type Head, LogDamaged } from '../log.ts';
import { type Disk, OutsideHead } from '../outside-head.ts';
import type { Connection } from './connection.ts';
import { headOf } from './statements.ts';

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
  const head = headOf(db)();
  let outside: OutsideHead | undefined;
  try {
    outside = OutsideHead.open(headFile, disk);
  } catch (error) {
    if (error instanceof LogDamaged) return { outside: undefined, damage: error.message };
    throw error;
  }
  if (outside === undefined) {
    if (head.count === 0) return { outside: OutsideHead.create(headFile, NOTHING, disk), damage: undefined };
    const damage = `The outside head ${headFile} is missing, so nobody can say whether the log's ${head.count} entries are all there were.`;
    return { outside: undefined, damage };
  }
  const known = outside.read();
  const damage = disagreement(db, known, head);
  if (damage === undefined && known.count < head.count) outside.write(head);
  return { outside, damage };
}

function disagreement(db: Connection, known: Head, head: Head): string | undefined {
  if (known.count > head.count)
    return `The log holds ${head.count} entries, but ${known.count} were acknowledged: the last ${known.count - head.count} are missing.`;
  const at =
    known.count === 0
      ? NOTHING
      : (db.prepare('SELECT hash FROM entries WHERE seq = ?').get(known.count) as Head);
  if (at?.hash !== known.hash) return `Entry ${known.count} of the log is not the one that was acknowledged.`;
  return brokenTail(db, known);
}

/** What was committed after the outside head was written must carry on from it. */
function brokenTail(db: Connection, known: Head): string | undefined {
  let previous = known.hash;
  let seq = known.count;
  const tail = db.prepare('SELECT seq, body, hash FROM entries WHERE seq > ? ORDER BY seq');
  for (const row of tail.iterate(known.count) as Iterable<{ seq: number; body: string; hash: string }>) {
    seq += 1;
    const sealed = JSON.parse(row.body) as Sealed;
    if (row.seq !== seq || sealed.previous !== previous || sha256(row.body) !== row.hash)
      return `Entry ${seq} of the log does not carry on from the one before it.`;
    previous = row.hash;
  }
  return undefined;
}
