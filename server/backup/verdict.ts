/** What walking the log found, in a sentence. */
import type { FilesVerdict } from '../host/files.ts';
import type { Verdict } from '../log/log.ts';

/** Why the log is not sound; undefined for one that is. */
export function verdictSentence({ broken, missing }: Verdict): string | undefined {
  if (broken !== undefined) return `Entry ${broken.seq} does not fit: ${broken.why}.`;
  if (missing === undefined) return undefined;
  const { expected, found } = missing;
  return `The last entries are missing: ${expected} were recorded, and ${found} are there.`;
}

/** How many are named one by one. */
const NAMED = 10;

/** What is wrong with pictures, a line for each; none where nothing is. */
export function picturesSentences({ missing, changed }: FilesVerdict): string[] {
  const at = (seq: number | undefined) => (seq === undefined ? 'no entry speaks of it' : `entry ${seq}`);
  const lines = [
    ...missing.map(({ sha256, seq }) => `Picture ${sha256} is missing (${at(seq)}).`),
    ...changed.map(({ sha256, seq }) => `Picture ${sha256} is not as it was when it was kept (${at(seq)}).`),
  ];
  return lines.length <= NAMED ? lines : [...lines.slice(0, NAMED), `And ${lines.length - NAMED} more.`];
}
