/** Asks a plugin's report and makes its answer whole. */
import { type Answer, answer as answerShape } from '../contract/figures.ts';
import { type Ask, AskRefused, type Plugin, type Report } from '../contract/plugin.ts';
import type { People } from '../people/people.ts';
import { fillReferences } from './references.ts';

export { ReportRefused } from './params.ts';

/** No such plugin or report. */
export class UnknownReport extends Error {
  override readonly name = 'UnknownReport';
}

/** The plugin's read model or the report itself failed; the message names them. */
export class ReportFailed extends Error {
  override readonly name = 'ReportFailed';
  constructor(
    readonly plugin: string,
    readonly report: string,
    cause: unknown,
  ) {
    const why = cause instanceof Error ? cause.message : String(cause);
    super(`Report “${report}” of plugin “${plugin}” failed: ${why}`, { cause });
  }
}

export function findReport(plugins: readonly Plugin[], plugin: string, report: string): Report {
  const owner = plugins.find((it) => it.id === plugin);
  if (!owner)
    throw new UnknownReport(
      `There is no plugin “${plugin}”. There are: ${list(plugins.map((it) => it.id))}.`,
    );
  const reports = owner.reports ?? {};
  if (!Object.hasOwn(reports, report))
    throw new UnknownReport(`“${plugin}” has no report “${report}”. It has: ${list(Object.keys(reports))}.`);
  return reports[report]!;
}

const list = (names: readonly string[]): string => (names.length === 0 ? 'none' : names.join(', '));

/**
 * @param check whether the answer is held against the figures' schema: in tests and development
 * @throws AskRefused where the plugin says that it cannot be answered; ReportFailed
 */
export async function runReport(
  plugin: string,
  name: string,
  report: Report,
  ask: Ask,
  input: unknown,
  people: People,
  check: boolean,
): Promise<Answer> {
  try {
    const { from = null, to = null, ...answered } = await report.run(ask, input);
    const answer = await fillReferences({ report: name, from, to, ...answered }, people);
    if (check) {
      const fits = answerShape.safeParse(answer);
      if (!fits.success) {
        const { path, message } = fits.error.issues[0]!;
        throw new Error(`its answer is not as it must be (${path.join('.')}: ${message})`);
      }
    }
    return answer;
  } catch (error) {
    throw error instanceof AskRefused ? error : new ReportFailed(plugin, name, error);
  }
}
