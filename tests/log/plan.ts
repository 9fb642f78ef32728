/** What the recorder records: the same commands for the same plan. */
import type { Append } from '../../server/log/log.ts';
import { begun, command } from '../support/appends.ts';

export interface Plan {
  /** One command after the other, each waited for; or an import, 500 at a time. */
  readonly how: 'single' | 'bulk';
  readonly commands: number;
  /** Whether a thread writes. */
  readonly thread: boolean;
  /** Somebody else locks the file meanwhile, until an append has failed for it. */
  readonly busy?: boolean;
}

export function appendsOf(plan: Plan): Append[] {
  return Array.from({ length: plan.commands }, (_, n) => {
    const lot = begun(`p${n}`, { streams: [`piece:p${n}`, `firing:${n % 9}`], claims: [`mark:p${n}`] });
    return command(n, n % 3 === 0 ? [lot, begun(`q${n}`)] : [lot]);
  });
}
