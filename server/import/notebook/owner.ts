import type { Reading } from '../../contract/cells/cell.ts';
import { failed, readName, unfit } from '../../contract/cells/cell.ts';
import type { OWNER_ROLES } from '../../contract/trade.ts';

export type RowOwner =
  | { readonly kind: 'own' }
  | { readonly kind: (typeof OWNER_ROLES)[number]; readonly name: string };

const EXPECTED = 'own, or commission:, student: or hire: and a name';

/** Blank is own; 'commission:NAME', 'student:NAME', 'hire:NAME'. */
export function readOwner(cell: string): Reading<RowOwner> {
  if (/^own$/i.test(cell)) return { value: { kind: 'own' } };
  const match = /^(commission|student|hire)\s*:(.*)$/is.exec(cell);
  if (match === null) return unfit(cell, EXPECTED);
  const name = readName(match[2]!);
  if (failed(name)) return unfit(cell, match[2]!.trim() === '' ? EXPECTED : name.expected);
  return { value: { kind: match[1]!.toLowerCase() as 'commission' | 'student' | 'hire', name: name.value } };
}
