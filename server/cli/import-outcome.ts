/** What an import did, told on the terminal. */
import type { Terminal } from './verb.ts';

/** Exit code: 1 when a row was bad. */
export function importOutcome(summary: unknown, { out }: Terminal): number {
  out(`${JSON.stringify(summary, null, 2)}\n`);
  return 0;
}
