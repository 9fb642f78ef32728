/** The run of foot marks that this device holds, for pieces begun while the studio is not heard. */
import type { Entry } from '../../server/contract/entry.ts';
import { deviceId, newId } from '../api/ids.ts';
import type { HeldMarks } from './database.ts';
import { kept } from './opened.ts';

/** A new run is reserved when fewer are left. */
const FEW = 8;
const RUN = 24;

/** How the studio is asked. */
export interface Studio {
  readonly ask: <T>(address: string) => Promise<T>;
  readonly send: (
    address: string,
    body: unknown,
    headers?: Readonly<Record<string, string>>,
  ) => Promise<unknown>;
}

export async function refillMarks({ ask, send }: Studio): Promise<void> {
  const held = await kept.fact<HeldMarks>('marks');
  if (held && held.free.length >= FEW) return;
  const run = newId();
  const order = { id: newId(), command: 'mark.reserve', input: { run, count: RUN } };
  await send('/api/commands', order, { 'x-wareboard-device': deviceId() });
  const query = new URLSearchParams([['stream', `marks:${run}`]]);
  const { entries } = await ask<{ entries: readonly Entry[] }>(`/api/streams?${query}`);
  const marks = entries.flatMap((entry) =>
    entry.name === 'mark.reserved' ? (entry.data as { readonly marks: readonly string[] }).marks : [],
  );
  await kept.keepFact('marks', { run, free: marks } satisfies HeldMarks);
}

/** The next mark of the run, which is then used up; undefined where none is left. */
export async function takeMark(): Promise<{ mark: string; run: string } | undefined> {
  const held = await kept.fact<HeldMarks>('marks');
  const [mark, ...free] = held?.free ?? [];
  if (!held || mark === undefined) return undefined;
  await kept.keepFact('marks', { ...held, free });
  return { mark, run: held.run };
}
