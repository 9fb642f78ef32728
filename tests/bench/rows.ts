/** What every contender records: one glaze laid on a pot, about 600 bytes once sealed. */
import type { NewEntry } from '../../server/contract/entry.ts';
import type { Append } from '../../server/log/log.ts';
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

export function glazing(n: number): Append {
  return command(n, [glazed(n)], { fingerprint: FINGERPRINT });
}

/** One command of many entries, all in one stream, which is all that the peer appends at once. */
export function glazingMany(n: number, entries: number): Append {
  const { streams } = glazed(n);
  const many = Array.from({ length: entries }, (_, part) => ({ ...glazed(n + part), streams }));
  return command(n, many, { fingerprint: FINGERPRINT });
}
