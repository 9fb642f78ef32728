/** What walking the log found, in a sentence. */
import type { Verdict } from '../log/log.ts';

/** Why the log is not sound; undefined for one that is. */
export function verdictSentence({ broken, missing }: Verdict): string | undefined {
  if (broken !== undefined) return `Entry ${broken.seq} does not fit: ${broken.why}.`;
  if (missing === undefined) return undefined;
  const { expected, found } = missing;
  return `The last entries are missing: ${expected} were recorded, and ${found} are there.`;
}
