/** What every contender records: one glaze laid on a pot, about 600 bytes once sealed. */
import type { NewEntry } from '../../server/contract/entry.ts';
import { command } from '../support/appends.ts';

const PIECES = 5000;

export function glazed(n: number): NewEntry {
  return {
    name: 'glaze.applied',
    version: 1,
    happenedAt: '2026-05-01T10:15:00+01:00',
    streams: [`piece:01968a00-0000-7000-8000-${String(n % PIECES).padStart(12, '0')}`],
    data: {
      layers: [
        { coats: 2, glaze: 'Marram Green', method: 'dip' },
        { coats: 1, glaze: 'Cuttle White', method: 'brush' },
      ],
      wipedBack: false,
      zone: 'outside',
    },
  };
}

const FINGERPRINT = 'ab'.repeat(32);

/** The nth command, with `entries` entries. */
export function glazing(n: number, entries = 1) {
  return command(
    n,
    Array.from({ length: entries }, (_, part) => glazed(n + part)),
    { fingerprint: FINGERPRINT },
  );
}
