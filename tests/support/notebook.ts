/** A studio in a throw-away folder that notebooks come into. */
import { rm } from 'node:fs/promises';
import { onTestFinished } from 'vitest';
import type { Entry } from '../../server/contract/entry.ts';
import type { Firing, Lot, Portion } from '../../server/contract/studio/state.ts';
import { stateOf } from '../../server/host/fold.ts';
import type { Host } from '../../server/host/host.ts';
import type { Summary } from '../../server/import/notebook/import.ts';
import { importNotebook } from '../../server/import/notebook/import.ts';
import { openHost } from '../../server/open-host.ts';
import { studio } from '../../server/studio/studio.ts';
import { quickFolder } from './folder.ts';

export const TODAY = '2026-11-25';
export const clock = (): Date => new Date(`${TODAY}T12:00:00Z`);
export const by = { who: 'ansa', device: 'laptop' };

export interface NotebookStudio {
  readonly host: Host;
  readonly folder: string;
  /** Lines of a CSV file, the headings first. */
  bring(lines: readonly string[], more?: Partial<Parameters<typeof importNotebook>[0]>): Promise<Summary>;
  entries(): Promise<Entry[]>;
  /** All portions of all lots, as they stand. */
  portions(): Promise<Portion[]>;
  firings(): Promise<Firing[]>;
}

export async function notebookStudio(): Promise<NotebookStudio> {
  const folder = quickFolder();
  const host = await openHost({ dir: folder, plugins: [studio], clock });
  onTestFinished(async () => {
    await host.close();
    await rm(folder, { recursive: true });
  });
  const set = { studio: 'Hollin Yard Pottery', zone: 'Europe/London', currency: 'GBP', yearStart: '01-01' };
  await host.record({ ...by, id: 'settings', command: 'studio.set', input: set, happenedAt: '2025-01-01' });
  const entries = async () => {
    const all: Entry[] = [];
    for (;;) {
      const some = await host.log.read(all.length, 10_000);
      if (some.length === 0) return all;
      all.push(...some);
    }
  };
  const states = async <State>(prefix: string): Promise<State[]> => {
    const names = new Set(
      (await entries()).flatMap(({ streams }) => streams).filter((name) => name.startsWith(`${prefix}:`)),
    );
    const streams = await host.log.streams([...names]);
    return [...streams].map(([name, stream]) => stateOf(name, stream.entries, host.registry) as State);
  };
  return {
    host,
    folder,
    bring: (lines, more) =>
      importNotebook({ host, source: Buffer.from(lines.join('\n')), now: clock, folder, ...by, ...more }),
    entries,
    portions: async () => (await states<Lot>('piece')).flatMap(({ portions }) => portions),
    firings: () => states<Firing>('firing'),
  };
}
