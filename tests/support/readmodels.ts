/** Read models over a made log, in a folder of their own. */
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import type { Plugin, Settings } from '../../server/contract/plugin.ts';
import { buildRegistry } from '../../server/host/registry.ts';
import type { People } from '../../server/people/people.ts';
import { openReadModels, type ReadModels } from '../../server/readmodels/readmodels.ts';
import { MadeLog } from './entries.ts';
import { freshFolder } from './log.ts';

export const SETTINGS: Settings = {
  studio: 'Hollin Yard Pottery',
  zone: 'Europe/London',
  currency: 'GBP',
  yearStart: '04-06',
};

/** Texts and names that are simply there. */
export function somePeople(texts: Record<string, string>, names: Record<string, string>): People {
  const look = (from: Record<string, string>) => async (ids: readonly string[]) =>
    new Map(ids.map((id) => [id, from[id] ?? null]));
  const search = async (words: string) => Object.keys(texts).filter((id) => texts[id]!.includes(words));
  return { read: look(texts), names: look(names), search } as unknown as People;
}

export class Bench {
  readonly log = new MadeLog();
  readonly dir = freshFolder();
  private opened: ReadModels | undefined;
  people = somePeople({}, {});

  path(plugin: string): string {
    return join(this.dir, `${plugin}.db`);
  }

  async open(...plugins: Plugin[]): Promise<ReadModels> {
    await this.close();
    this.opened = await openReadModels({
      registry: buildRegistry(plugins),
      log: this.log.asLog,
      people: this.people,
      dir: this.dir,
      settings: async () => SETTINGS,
      clock: () => new Date('2026-05-01T09:00:00Z'),
      check: true,
    });
    return this.opened;
  }

  async close(): Promise<void> {
    await this.opened?.close();
    this.opened = undefined;
  }

  async end(): Promise<void> {
    await this.close();
    rmSync(this.dir, { recursive: true, force: true });
  }

  made(bowl: string, count: number, day = '2026-04-20', recorded = day): void {
    const it = { name: 'bowl.made', streams: [`bowl:${bowl}`], data: { count } };
    this.log.record(day, `${recorded}T10:00:00.000Z`, [it]);
  }

  struck(seq: number, recorded: string): void {
    const { streams } = this.log.entries[seq - 1]!;
    this.log.record(recorded, `${recorded}T12:00:00.000Z`, [
      { name: 'entry.struck', streams, data: { seq } },
    ]);
  }
}
