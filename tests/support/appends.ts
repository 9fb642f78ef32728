/** Appends for tests of the log itself: any command that begins a piece will do. */
import type { NewEntry } from '../../server/contract/entry.ts';
import { sha256 } from '../../server/log/chain.ts';
import type { Append } from '../../server/log/log.ts';

/** An id of the form of a UUIDv7, from a number. */
export function commandId(n: number): string {
  return `01968a00-0000-7000-8000-${n.toString(16).padStart(12, '0')}`;
}

export function begun(piece: string, more: Partial<NewEntry> = {}): NewEntry {
  return {
    name: 'piece.begun',
    version: 1,
    happenedAt: '2026-05-01',
    streams: [`piece:${piece}`],
    data: { piece, count: 1, form: 'mug', clay: 'Fell White stoneware' },
    ...more,
  };
}

export function command(n: number, entries: readonly NewEntry[], more: Partial<Append> = {}): Append {
  return {
    command: commandId(n),
    fingerprint: sha256(JSON.stringify(entries)),
    who: 'person-1',
    device: 'device-1',
    expect: {},
    entries,
    ...more,
  };
}
