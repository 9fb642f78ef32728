/** Streams whose words are about a person: those of all ware that is theirs. */
import type { Ask } from '../contract/plugin.ts';
import { lotOf } from '../contract/studio/values.ts';

export async function concerning(ask: Ask, person: string): Promise<string[]> {
  const pieces = await ask.query<{ piece: string }>('SELECT DISTINCT piece FROM ware WHERE person = ?', [
    person,
  ]);
  return [...new Set(pieces.map(({ piece }) => `piece:${lotOf(piece)}`))];
}
