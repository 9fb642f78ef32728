/** The operator's word that what is left of a damaged log is to be the log. */
import { join } from 'node:path';
import { connectReadOnly } from './embedded/connection.ts';
import { EmbeddedPages } from './embedded/pages.ts';
import type { Verdict } from './log.ts';
import { OutsideHead } from './outside-head.ts';
import { verify } from './verify.ts';

/**
 * After a loss: makes what folder `dir` still holds the log, if its chain is whole, by giving it a new
 * outside head. Only the operator may decide this, knowing what is missing; nothing may be writing.
 * @returns what the chain's walk found; where it is `broken`, nothing was changed
 */
export async function acceptLog(dir: string): Promise<Verdict> {
  const verdict = await verify(
    () => new EmbeddedPages(connectReadOnly(join(dir, 'log.db')), true),
    undefined,
  );
  if (verdict.broken === undefined) OutsideHead.create(join(dir, 'log.head'), verdict.head).close();
  return verdict;
}
