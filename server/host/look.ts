/** What a plugin's imports and timed work may look at (see contract/look.ts). */
import { createHash } from 'node:crypto';
import type { Look } from '../contract/look.ts';
import { type StreamRef, streamName } from '../contract/streams.ts';
import { dayAt } from './days.ts';
import { stateOf } from './fold.ts';
import type { Host } from './host.ts';
import { newId } from './ids.ts';
import { struck } from './order.ts';

/** Streams read from the log at once. */
const FETCH = 1_000;

const dashed = (hex: string): string =>
  `${hex.slice(0, 8)}-${hex.slice(8, 12)}-${hex.slice(12, 16)}-${hex.slice(16, 20)}-${hex.slice(20, 32)}`;

/**
 * A UUID of version 8 (RFC 9562, 5.8) from a hash. The digits after the version keep it apart from the ids
 * that the notebook's import makes.
 */
export function idOf(parts: readonly unknown[]): string {
  const hex = createHash('sha256').update(JSON.stringify(parts)).digest('hex');
  return dashed(`${hex.slice(0, 12)}8ffe8${hex.slice(12, 27)}`);
}

export async function lookOn(host: Host, now: Date): Promise<Look> {
  const settings = await host.settings();
  return {
    settings,
    today: dayAt(now.getTime(), settings.zone),
    states: async <State>(kind: StreamRef<State>, keys: readonly string[]) => {
      const states = new Map<string, State>();
      for (let from = 0; from < keys.length; from += FETCH) {
        const some = keys.slice(from, from + FETCH);
        const found = await host.log.streams(some.map((key) => streamName(kind, key)));
        for (const key of some) {
          const name = streamName(kind, key);
          states.set(key, stateOf(name, found.get(name)!.entries, host.registry) as State);
        }
      }
      return states;
    },
    struckOut: async (event, streams) => {
      const times = new Map<string, number>();
      for (let from = 0; from < streams.length; from += FETCH) {
        for (const [name, { entries }] of await host.log.streams(streams.slice(from, from + FETCH))) {
          const gone = struck(entries);
          const found = entries.filter((entry) => entry.name === event && gone.has(entry.seq)).length;
          if (found > 0) times.set(name, found);
        }
      }
      return times;
    },
    texts: (refs) => host.people.read([...new Set(refs.map((ref) => ref.text))]),
    personsAbout: (text) => host.people.about(text),
    newId: () => newId(now),
    idOf: (...parts) => idOf(parts),
  };
}
