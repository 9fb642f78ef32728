/** The studio's settings, folded from their stream and kept until something is appended. */
import type { Settings } from '../contract/plugin.ts';
import type { EventLog } from '../log/log.ts';
import { History } from './history.ts';
import type { Registry } from './registry.ts';

export const SETTINGS_STREAM = 'studio:settings';

/** What holds until the potter says otherwise: the zone is this machine's. */
const untilSaid = (): Settings => ({
  studio: 'The studio',
  zone: Intl.DateTimeFormat().resolvedOptions().timeZone || 'UTC',
  currency: 'GBP',
  yearStart: '01-01',
});

export function keepSettings(
  registry: Registry,
  log: EventLog,
): { settings(): Promise<Settings>; stop(): void } {
  let kept: Promise<Settings> | undefined;
  const read = async (): Promise<Settings> => {
    const { entries } = (await log.streams([SETTINGS_STREAM])).get(SETTINGS_STREAM)!;
    const state = new History(registry, SETTINGS_STREAM, entries).latest() as {
      settings?: Partial<Settings>;
    };
    return { ...untilSaid(), ...state.settings };
  };
  const stop = log.onAppended(() => {
    kept = undefined;
  });
  return {
    settings: () => {
      if (kept) return kept;
      const reading = read();
      kept = reading;
      reading.catch(() => {
        if (kept === reading) kept = undefined;
      });
      return reading;
    },
    stop,
  };
}
