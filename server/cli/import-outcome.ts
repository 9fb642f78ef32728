/** What an import did, told on the terminal. */
import type { Summary } from '../import/notebook/import.ts';
import type { PluginSummary } from '../import/plugin-import.ts';
import { count } from './counted.ts';
import type { Terminal } from './verb.ts';

export type Told = Summary | PluginSummary;

/** What the good rows speak of: '2 pieces, 1 firing'. */
const spokenOf = (told: Told): string[] =>
  'counts' in told
    ? Object.entries(told.counts).map(([name, n]) => count(n, name))
    : [count(told.pieces, 'piece'), count(told.firings, 'firing')];

/** Exit code: 1 when a row was bad. Bad rows go to the error channel, a line each. */
export function importOutcome(summary: Told, dryRun: boolean, { out, err }: Terminal): number {
  for (const { line, column, found, expected } of summary.bad) {
    err(`line ${line}, ${column}: found “${found}”; expected ${expected}\n`);
  }
  for (const { line, sentences } of summary.preview ?? []) {
    if (sentences.length > 0) out(`line ${line}: ${sentences.join(' ')}\n`);
  }
  const would = dryRun ? 'would be ' : '';
  const { rows, recorded, repeated, struck, bad } = summary;
  out(
    `${[count(rows, 'row'), ...spokenOf(summary)].join(', ')}: ${count(recorded, 'entry', 'entries')} ${would}recorded`,
  );
  if (struck > 0) out(`, of them ${struck} to strike out what an earlier import had otherwise`);
  out(repeated > 0 ? `; ${count(repeated, 'step')} recorded before.\n` : '.\n');
  for (const [kind, added] of Object.entries(summary.added) as [string, readonly string[]][])
    if (added.length > 0) out(`New ${kind}: ${added.join(', ')}.\n`);
  if (summary.unknown.length > 0)
    out(
      `Columns that were not read: ${summary.unknown.join(', ')} (--map HEADING=COLUMN says what they are).\n`,
    );
  for (const note of summary.notes) out(`${note}\n`);
  if (bad.length === 0) return 0;
  err(
    `${count(new Set(bad.map(({ line }) => line)).size, 'row')} could not be read; the good rows ${dryRun ? 'would be' : 'are'} recorded all the same.\n`,
  );
  return 1;
}
