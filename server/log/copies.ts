/** Copies of the embedded log, and the operator's word that what is left of a damaged one is to be the log. */
import { existsSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { connect, connectReadOnly } from './embedded/connection.ts';
import { EmbeddedPages } from './embedded/pages.ts';
import { type Head, LogDamaged, type Verdict } from './log.ts';
import { OutsideHead, readOutsideHead } from './outside-head.ts';
import { HASH_SQL, HEAD_SQL, type HeadRow, headFrom } from './sql.ts';
import { disagreement } from './standing.ts';
import { type Bytes, text } from './text.ts';
import { verify } from './verify.ts';

const DATABASE = 'log.db';
const HEAD = 'log.head';

/**
 * Copies the log of folder `dir` into folder `to`, as it stands at this moment, with an outside head of
 * its own; others may go on writing.
 * @throws LogDamaged when the log has lost what its outside head knows of: a copy would cover that up
 */
export function copyLog(dir: string, to: string): Head {
  const target = join(to, DATABASE);
  if (existsSync(target)) throw new Error(`There is a log in ${to} already.`);
  mkdirSync(to, { recursive: true });
  const acknowledged = readOutsideHead(join(dir, HEAD));
  const source = connect(join(dir, DATABASE));
  try {
    source.prepare('VACUUM INTO ?').run(target);
  } finally {
    source.close();
  }
  const head = copiedHead(target, acknowledged);
  OutsideHead.create(join(to, HEAD), head).close();
  return head;
}

function copiedHead(target: string, acknowledged: Head | undefined): Head {
  const copy = connect(target);
  try {
    const head = headFrom(copy.prepare(HEAD_SQL).all()[0] as HeadRow | undefined);
    if (acknowledged === undefined) throw new LogDamaged('The outside head of the log is missing.');
    const there = copy.prepare(HASH_SQL).all(acknowledged.count)[0] as { hash: Bytes } | undefined;
    const damage = disagreement(acknowledged, head, there && text(there.hash));
    if (damage !== undefined) throw new LogDamaged(damage);
    return head;
  } finally {
    copy.close();
  }
}

/**
 * After a loss: makes what folder `dir` still holds the log, if its chain is whole, by giving it a new
 * outside head. Only the operator may decide this, knowing what is missing; nothing may be writing.
 * @returns what the chain's walk found; where it is `broken`, nothing was changed
 */
export async function acceptLog(dir: string): Promise<Verdict> {
  const verdict = await verify(
    () => new EmbeddedPages(connectReadOnly(join(dir, DATABASE)), true),
    undefined,
  );
  if (verdict.broken === undefined) OutsideHead.create(join(dir, HEAD), verdict.head).close();
  return verdict;
}
