import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { ask, Failed, reportAddress, type Told } from '../api/client.ts';
import { recorded } from '../api/fresh.ts';
import type { Marked } from './match.ts';

/** Every mark in the studio: asked once something is looked for, and again when the log has grown since. */
const held = signal<readonly Marked[]>([]);
let askedAt = -1;

async function fetchMarks(grown: number): Promise<void> {
  if (askedAt === grown) return;
  askedAt = grown;
  try {
    held.value = (await ask<Told<Marked>>(reportAddress('studio/marks'))).rows;
  } catch (failure) {
    if (!(failure instanceof Failed)) throw failure;
    askedAt = -1;
  }
}

/** @param wanted whether anything is looked for yet */
export function useMarks(wanted: boolean): readonly Marked[] {
  const grown = recorded.value;
  useEffect(() => {
    if (wanted) void fetchMarks(grown);
  }, [wanted, grown]);
  return held.value;
}
