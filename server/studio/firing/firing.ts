/** How the entries of one firing fold, and which may follow. */
import type { Entry } from '../../contract/entry.ts';
import type { StreamKind } from '../../contract/streams.ts';
import type { StudioData, StudioEventName } from '../../contract/studio/events.ts';
import type { Firing } from '../../contract/studio/state.ts';

import { photoOf } from '../photos.ts';

type Fold<Name extends StudioEventName> = (
  firing: Firing,
  data: StudioData<Name>,
  entry: Entry,
) => Partial<Firing>;

const folds: { readonly [Name in StudioEventName]?: Fold<Name> } = {
  'firing.packed': (firing, data, entry) => ({
    label: data.label ?? firing.label,
    kiln: data.kiln,
    schedule: data.schedule ?? firing.schedule,
    role: data.role,
    state: data.afterwards ? firing.state : 'packed',
    places: [...firing.places, ...data.places],
    packedAt: firing.packedAt ?? entry.happenedAt,
  }),
  'firing.unpacked': (firing, data) => {
    const places = firing.places.filter((p) => !data.pieces.includes(p.piece));
    return { places, state: places.length > 0 ? 'packed' : 'none' };
  },
  'firing.lit': (_, __, entry) => ({ state: 'lit', litAt: entry.happenedAt }),
  'file.attached': (firing, data, entry) => ({ photos: [...firing.photos, photoOf(data, entry)] }),
  'firing.read': (firing, data) => ({ readings: [...firing.readings, ...data.readings] }),
  'firing.abandoned': () => ({ state: 'abandoned' }),
  'firing.ended': (_, data, entry) => ({
    state: 'ended',
    endedAt: entry.happenedAt,
    ...(data.top ? { top: data.top } : {}),
  }),
  'firing.drawn': (_, data, entry) => ({
    state: 'drawn',
    drawnAt: entry.happenedAt,
    ...(data.cones ? { cones: data.cones } : {}),
  }),
};

const named = (firing: Firing) => firing.label ?? 'This firing';

/** From which states of the firing each event may come, and what is said otherwise. */
const LEGAL: Readonly<
  Record<string, { from: readonly Firing['state'][]; otherwise: (firing: Firing) => string }>
> = {
  'firing.packed': {
    from: ['none', 'packed'],
    otherwise: (f) =>
      `${named(f)} was ${f.state === 'lit' ? 'lit' : f.state} already; nothing more can be packed in it. Say that the piece went through it, or pack another firing.`,
  },
  'firing.unpacked': {
    from: ['packed'],
    otherwise: (f) =>
      `${named(f)} is ${f.state === 'none' ? 'not packed' : f.state}; only a packed kiln that is not lit can be unpacked.`,
  },
  'firing.lit': {
    from: ['packed'],
    otherwise: (f) =>
      f.state === 'none'
        ? `${named(f)} can't be lit: nothing is packed in it.`
        : `${named(f)} was ${f.state} already.`,
  },
  'firing.read': {
    from: ['lit', 'ended', 'drawn'],
    otherwise: (f) => `${named(f)} has not been lit, so it has no readings yet.`,
  },
  'firing.abandoned': {
    from: ['packed', 'lit'],
    otherwise: (f) => `${named(f)} is ${f.state}; only a packed or lit firing can be given up.`,
  },
  'firing.ended': {
    from: ['lit'],
    otherwise: (f) =>
      f.state === 'packed' || f.state === 'none'
        ? `${named(f)} can't end: it was never lit.`
        : `${named(f)} was ${f.state} already.`,
  },
  'firing.drawn': {
    from: ['ended'],
    otherwise: (f) =>
      f.state === 'lit'
        ? `${named(f)} can't be drawn: it has not ended. Note its end first, and let it cool as the kiln maker's handbook says.`
        : f.state === 'drawn'
          ? `${named(f)} was drawn already.`
          : `${named(f)} can't be drawn: it was never lit. Light it first, or unpack it.`,
  },
};

export const firingKind: StreamKind<Firing> = {
  prefix: 'firing',
  initial: (firing) => ({ firing, state: 'none', places: [], readings: [], photos: [], changedSeq: 0 }),
  evolve: (firing, entry) => {
    const fold = folds[entry.name as StudioEventName] as Fold<StudioEventName> | undefined;
    if (!fold) return firing;
    return {
      ...firing,
      ...fold(firing, entry.data as StudioData<StudioEventName>, entry),
      changedSeq: Math.max(firing.changedSeq, entry.seq),
    };
  },
  legal: (firing, entry) => {
    const rule = LEGAL[entry.name];
    if (!rule) return undefined;
    const late =
      entry.name === 'firing.packed' ? (entry.data as StudioData<'firing.packed'>).afterwards : undefined;
    if (late) {
      const fits =
        late === 'drawn' ? firing.state === 'drawn' : firing.state === 'ended' || firing.state === 'drawn';
      return fits
        ? undefined
        : `${named(firing)} is not ${late} at that time, so nothing can have gone through it.`;
    }
    if (!rule.from.includes(firing.state)) return rule.otherwise(firing);
    if (entry.name === 'firing.packed' && firing.kiln) {
      const { kiln, role } = entry.data as StudioData<'firing.packed'>;
      if (kiln !== firing.kiln || role !== firing.role)
        return `${named(firing)} is a ${firing.role} firing in ${firing.kiln}; pack the rest in the same kiln and for the same firing.`;
    }
    return undefined;
  },
};

export const firingStream = (firing: string): string => `firing:${firing}`;
