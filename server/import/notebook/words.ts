/** The words for faults, repairs and zones: the trade's, and those the studio added. */

import type { Reading } from '../../contract/cells/cell.ts';
import { unfit } from '../../contract/cells/cell.ts';
import { handleOf } from '../../contract/studio/values.ts';

/** Ids by what can be written for them: the id itself or the studio's name for it, both as handles. */
export interface KnownWords {
  readonly fault: ReadonlyMap<string, string>;
  readonly repair: ReadonlyMap<string, string>;
  readonly zone: ReadonlyMap<string, string>;
}

export function readWord(text: string, kind: keyof KnownWords, words: KnownWords): Reading<string> {
  const value = words[kind].get(handleOf(text));
  if (value !== undefined) return { value };
  const known = [...new Set(words[kind].values())].join(', ');
  return unfit(text, `a ${kind}: one of ${known}`);
}
