/** Whether what a command names is in the studio: materials, words, people. */
import { type Refusal, refuse, type StreamKind, type Streams } from '../../contract/streams.ts';
import type { Material } from '../../contract/studio/state.ts';
import type { Owner } from '../../contract/studio/values.ts';
import { FAULTS, REPAIRS, ZONES } from '../../contract/trade.ts';
import {
  clayKind,
  glazeKind,
  kilnKind,
  type MaterialKind,
  personKind,
  scheduleKind,
  studioKind,
} from './materials.ts';

export const SETTINGS_STREAM = 'studio:settings';

const KINDS = {
  clay: clayKind,
  glaze: glazeKind,
  schedule: scheduleKind,
  kiln: kilnKind,
} as unknown as Readonly<Record<MaterialKind, StreamKind<Material>>>;

/** Refuses a clay, glaze, schedule or kiln that was never added; `id` may be absent. */
export function unknownMaterial(
  streams: Streams,
  kind: MaterialKind,
  id: string | undefined,
  field: string,
): Refusal | undefined {
  if (id === undefined) return undefined;
  const material = streams.latest(KINDS[kind], id);
  if (material.facts) return undefined;
  return refuse(
    'not-in-the-studio',
    `There is no ${kind} called “${id}” in the studio; add it under Materials first.`,
    field,
  );
}

const TRADE = { fault: FAULTS, repair: REPAIRS, zone: ZONES } as const;

/** Refuses a fault, repair or zone that is neither the trade's nor the user's own. */
export function unknownWord(
  streams: Streams,
  kind: keyof typeof TRADE,
  word: string | undefined,
  field: string,
): Refusal | undefined {
  if (word === undefined) return undefined;
  const trade: readonly string[] = TRADE[kind];
  const own = streams.latest(studioKind, 'settings').words[kind];
  if (trade.includes(word) || Object.hasOwn(own, word)) return undefined;
  const known = [...trade, ...Object.keys(own)].join(', ');
  return refuse(
    `unknown-${kind}`,
    `“${word}” is not a known ${kind}. Known: ${known}. Your own can be added under Materials.`,
    field,
  );
}

/** Refuses an owner who was never added or has been forgotten. */
export function unknownOwner(streams: Streams, owner: Owner): Refusal | undefined {
  if (owner.kind === 'own') return undefined;
  const person = streams.latest(personKind, owner.person);
  if (person.name && !person.forgotten) return undefined;
  return refuse(
    'no-such-person',
    'This person is not in the studio’s list; add them under People first.',
    'owner.person',
  );
}

export const ownerStreams = (owner: Owner): readonly string[] =>
  owner.kind === 'own' ? [] : [`person:${owner.person}`];
