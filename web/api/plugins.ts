/** What plugins there are, as GET /api/plugins tells. */
import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { ask, Failed } from './client.ts';
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
  /** Whether it is one to choose; the others are come to from another page. */
  readonly listed: boolean;
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

const FIRST = 'seconds-tally';

export const usePlugins = () => useAddress<{ readonly plugins: readonly OfferedPlugin[] }>('/api/plugins');

const held = signal<readonly OfferedPlugin[]>([]);
let asked = false;

async function fetchPlugins(): Promise<void> {
  if (asked) return;
  asked = true;
  try {
    held.value = (await ask<{ readonly plugins: readonly OfferedPlugin[] }>('/api/plugins')).plugins;
  } catch (failure) {
    if (!(failure instanceof Failed)) throw failure;
    asked = false;
  }
}

/** Whether this Wareboard has the report ('plugin/report'); asked once for all screens. */
export function useOffered(name: string): boolean {
  useEffect(() => void fetchPlugins(), []);
  return held.value.some(({ id, reports }) => reports.some(({ report }) => `${id}/${report}` === name));
}

const listed = (report: OfferedReport): boolean => report.listed;

/** Plugins with something to review, the tally of seconds first. */
export const reviewed = (plugins: readonly OfferedPlugin[]): readonly OfferedPlugin[] =>
  plugins
    .map((plugin) => ({ ...plugin, reports: plugin.reports.filter(listed) }))
    .filter((plugin) => plugin.reports.length > 0)
    .toSorted((a, b) => Number(b.id === FIRST) - Number(a.id === FIRST));
