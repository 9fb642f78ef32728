/** A recorder on a log in memory, with a clock that stands where the test puts it. */
import type { Plugin } from '../../server/contract/plugin.ts';
import type { Order, Outcome } from '../../server/host/host.ts';
import { makeRecorder, type Recorder } from '../../server/host/record.ts';
import { buildRegistry, type Registry } from '../../server/host/registry.ts';
import type { EventLog } from '../../server/log/log.ts';
import { openLogInMemory } from '../../server/log/open.ts';
import type { People } from '../../server/people/people.ts';
import { openPeople } from '../../server/people/store.ts';
import { stamps } from './stamps.ts';

export interface Bench extends Recorder {
  readonly registry: Registry;
  readonly log: EventLog;
  readonly people: People;
  /** Asks for a command, with an id of its own unless one is given. */
  ask(command: string, input: unknown, more?: Partial<Order>): Promise<Outcome>;
  order(command: string, input: unknown, more?: Partial<Order>): Order;
  /** Names of all entries in the log, in order. */
  recorded(): Promise<string[]>;
  /** Puts the clock to an instant. */
  at(instant: string): void;
  end(): Promise<void>;
}

export const NOW = '2026-06-30T11:00:00.000Z';

export async function openBench(
  options: { plugins?: readonly Plugin[]; zone?: string; log?: EventLog } = {},
): Promise<Bench> {
  let now = new Date(NOW);
  const clock = () => now;
  const registry = buildRegistry(options.plugins ?? [stamps]);
  const log = options.log ?? openLogInMemory(clock);
  const people = openPeople(':memory:');
  const settings = async () => ({ zone: options.zone ?? 'Europe/London' });
  const recorder = makeRecorder({ registry, log, people, clock, settings });
  let orders = 0;
  const order = (command: string, input: unknown, more: Partial<Order> = {}): Order => {
    orders += 1;
    const id = `01990000-0000-7000-8000-${String(orders).padStart(12, '0')}`;
    return { id, command, input, who: 'ansa', device: 'bench', ...more };
  };
  return {
    ...recorder,
    registry,
    log,
    people,
    order,
    ask: (command, input, more) => recorder.record(order(command, input, more)),
    recorded: async () => (await log.read(0, 100_000)).map((entry) => entry.name),
    at: (instant) => {
      now = new Date(instant);
    },
    end: async () => {
      await log.close();
      await people.close();
    },
  };
}
