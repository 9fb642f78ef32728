/** What plugins there are, as GET /api/plugins tells. */
import { useAddress } from './use-report.ts';

export interface InputField {
  readonly type?: string;
  readonly enum?: readonly string[];
  readonly format?: string;
  readonly default?: unknown;
}

export interface OfferedReport {
  readonly report: string;
  readonly title: string;
  readonly input: {
    readonly properties?: Readonly<Record<string, InputField>>;
    readonly required?: readonly string[];
  };
}

export interface OfferedPlugin {
  readonly id: string;
  readonly about: string;
  readonly reports: readonly OfferedReport[];
}

/** The studio's own reports have pages of their own. */
const STUDIO = 'studio';
const FIRST = 'seconds-tally';

export const usePlugins = () => useAddress<{ readonly plugins: readonly OfferedPlugin[] }>('/api/plugins');

/** Plugins with something to review, the tally of seconds first. */
export const reviewed = (plugins: readonly OfferedPlugin[]): readonly OfferedPlugin[] =>
  plugins
    .filter((plugin) => plugin.id !== STUDIO && plugin.reports.length > 0)
    .toSorted((a, b) => Number(b.id === FIRST) - Number(a.id === FIRST));

/** Fields that must be there and have no default: such a report is come to from another page. */
export const needsMore = (report: OfferedReport): boolean =>
  (report.input.required ?? []).some((name) => report.input.properties?.[name]?.default === undefined);
