/** Clays, glazes, schedules and kilns: versioned facts, each in a stream of its own. */
import type { StreamKind } from '../../contract/streams.ts';
import type { StudioData } from '../../contract/studio/events.ts';
import type { Material, Person, Words } from '../../contract/studio/state.ts';

import { photoOf } from '../photos.ts';

export type MaterialKind = 'clay' | 'glaze' | 'schedule' | 'kiln';

const NOUN: Readonly<Record<MaterialKind, string>> = {
  clay: 'clay',
  glaze: 'glaze',
  schedule: 'firing schedule',
  kiln: 'kiln',
};

function materialKind<Facts extends { id: string; name: string }>(
  prefix: MaterialKind,
): StreamKind<Material<Facts>> {
  const added = prefix === 'schedule' ? 'schedule.written' : `${prefix}.added`;
  return {
    prefix,
    initial: (id) => ({ id, version: 0, written: [], batches: [], photos: [] }),
    evolve: (state, entry) => {
      if (entry.name === added || entry.name === `${prefix}.changed`)
        return {
          ...state,
          facts: entry.data as Facts,
          version: state.version + 1,
          written: [...state.written, entry.happenedAt],
        };
      if (entry.name === 'clay.batch-opened' || entry.name === 'glaze.batch-mixed')
        return {
          ...state,
          batches: [
            ...state.batches,
            { batch: (entry.data as { batch: string }).batch, at: entry.happenedAt },
          ],
        };
      if (entry.name === 'file.attached') {
        const data = entry.data as StudioData<'file.attached'>;
        return { ...state, photos: [...state.photos, photoOf(data, entry)] };
      }
      return state;
    },
    legal: (state, entry) => {
      const first = entry.name === added && prefix !== 'schedule';
      if (first && state.facts) return `There is already a ${NOUN[prefix]} called ${state.facts.name}.`;
      if (entry.name !== added && !state.facts)
        return `There is no ${NOUN[prefix]} called ${state.id} at that time; add it first.`;
      return undefined;
    },
  };
}

export const clayKind = materialKind<StudioData<'clay.added'>>('clay');
export const glazeKind = materialKind<StudioData<'glaze.added'>>('glaze');
export const scheduleKind = materialKind<StudioData<'schedule.written'>>('schedule');
export const kilnKind = materialKind<StudioData<'kiln.added'>>('kiln');

/** The user's own words, the settings: one stream each, keys 'words' and 'settings'. */
export interface Studio {
  readonly words: Words;
  readonly settings?: StudioData<'studio.set'>;
}

export const studioKind: StreamKind<Studio> = {
  prefix: 'studio',
  initial: () => ({ words: { fault: {}, repair: {}, zone: {} } }),
  evolve: (state, entry) => {
    if (entry.name === 'studio.set') return { ...state, settings: entry.data as StudioData<'studio.set'> };
    if (entry.name !== 'word.added') return state;
    const { kind, id, name } = entry.data as StudioData<'word.added'>;
    return { ...state, words: { ...state.words, [kind]: { ...state.words[kind], [id]: name } } };
  },
  legal: () => undefined,
};

export const personKind: StreamKind<Person> = {
  prefix: 'person',
  initial: (person) => ({ person, forgotten: false }),
  evolve: (state, entry) => {
    if (entry.name === 'person.added')
      return { ...state, name: (entry.data as StudioData<'person.added'>).name };
    return entry.name === 'person.forgotten' ? { ...state, forgotten: true } : state;
  },
  legal: (state, entry) =>
    entry.name === 'person.forgotten' && state.forgotten
      ? 'This person has been forgotten already.'
      : undefined,
};
