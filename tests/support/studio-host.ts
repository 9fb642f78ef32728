/** A whole studio in a fresh folder, with a fixed clock, for tests from end to end. */
import { rm } from 'node:fs/promises';
import type { Plugin } from '../../server/contract/plugin.ts';
import type { Host, Order, Outcome } from '../../server/host/host.ts';
import { PLUGINS } from '../../server/manifest.ts';
import { openHost } from '../../server/open-host.ts';
import { aPdf } from './a-pdf.ts';
import { aPicture } from './a-picture.ts';
import { quickFolder } from './folder.ts';
import type { Happening } from './given.ts';

export const NOON = new Date('2026-06-30T12:00:00.000Z');

export interface StudioHost {
  readonly host: Host;
  readonly dir: string;
  /** Records, and fails the test where it is refused. */
  tell(...happenings: readonly Happening[]): Promise<Outcome[]>;
  /** Records or is refused. */
  ask(command: string, input: unknown, on?: string): Promise<Outcome>;
  close(): Promise<void>;
}

export interface StudioHostOptions {
  readonly plugins?: readonly Plugin[];
  /** What the clock says; noon on the last day of June 2026 when left out. */
  readonly clock?: () => Date;
  readonly sizes?: Parameters<typeof openHost>[0]['sizes'];
}

export async function studioHost(options: StudioHostOptions = {}): Promise<StudioHost> {
  const dir = quickFolder();
  const { plugins = PLUGINS, clock = () => NOON, sizes } = options;
  const host = await openHost({ dir, plugins, clock, sizes });
  let commands = 0;
  const order = (command: string, input: unknown, happenedAt?: string): Order => {
    commands += 1;
    const id = `01980000-0000-7000-8000-${String(commands).padStart(12, '0')}`;
    return { id, command, input, happenedAt, who: 'ansa', device: 'bench' };
  };
  const orderOf = (happening: Happening): Order => {
    if (!('command' in happening)) throw new Error('only commands can be told to a host');
    return order(happening.command, happening.input, happening.on);
  };
  return {
    host,
    dir,
    ask: (command, input, on) => host.record(order(command, input, on)),
    tell: async (...happenings) => {
      const gives = (it: Happening) => 'command' in it && it.command === 'item.give-file';
      if (happenings.some(gives)) await host.documents.keep(aPdf());
      const pictured = (it: Happening) => 'command' in it && it.command === 'order.keep-picture';
      if (happenings.some(pictured)) await host.pictures.keep(aPicture.bytes);
      const outcomes = await host.recordAll(happenings.map(orderOf));
      for (const [n, outcome] of outcomes.entries())
        if (outcome.outcome === 'refused')
          throw new Error(`${(happenings[n] as { command: string }).command}: ${outcome.refusal.sentence}`);
      return outcomes;
    },
    close: async () => {
      await host.close();
      await rm(dir, { recursive: true, force: true });
    },
  };
}
