/** What a firing's events do to the portions of a lot. */
import type { Entry } from '../../contract/entry.ts';
import type { StudioData } from '../../contract/studio/events.ts';
import type { Lot, Passage, Portion } from '../../contract/studio/state.ts';
import { isOfLot, type Place } from '../../contract/studio/values.ts';
import { stageAfterFiring } from './moves.ts';

type Fire = (portion: Portion, passage: Passage, entry: Entry) => Partial<Portion> | undefined;

const setPassage = (portion: Portion, passage: Passage, to: Partial<Passage>): readonly Passage[] =>
  portion.passages.map((p) => (p === passage ? { ...p, ...to } : p));

const ended = (portion: Portion, passage: Passage, to: Partial<Passage>): Partial<Portion> => ({
  stage: stageAfterFiring(passage.role, portion.stage),
  passages: setPassage(portion, passage, to),
});

const fires: Readonly<Record<string, Fire>> = {
  'firing.lit': (portion, passage, entry) => ({
    passages: setPassage(portion, passage, { state: 'lit', litAt: entry.happenedAt }),
  }),
  'firing.ended': (portion, passage, entry) =>
    ended(portion, passage, { state: 'ended', endedAt: entry.happenedAt }),
  'firing.drawn': (portion, passage) => ({
    inFiring: undefined,
    passages: setPassage(portion, passage, { state: 'drawn' }),
  }),
  'firing.abandoned': (portion, passage) => ({
    inFiring: undefined,
    passages: setPassage(portion, passage, { state: 'abandoned' }),
  }),
  'firing.unpacked': (portion, passage, entry) =>
    (entry.data as StudioData<'firing.unpacked'>).pieces.includes(portion.piece)
      ? { inFiring: undefined, passages: portion.passages.filter((p) => p !== passage) }
      : undefined,
};

/** Portions with an unfinished passage through this firing, each changed by `fire`. */
function throughFiring(lot: Lot, entry: Entry, fire: Fire): Lot {
  const { firing } = entry.data as { firing: string };
  const portions = lot.portions.map((portion) => {
    const passage = portion.passages.findLast((p) => p.firing === firing);
    if (!passage || passage.state === 'drawn' || passage.state === 'abandoned') return portion;
    const by = fire(portion, passage, entry);
    return by ? { ...portion, ...by, changedAt: entry.happenedAt, changedSeq: entry.seq } : portion;
  });
  return { ...lot, portions };
}

function packPortion(portion: Portion, place: Place, entry: Entry): Portion {
  const { firing, label, kiln, schedule, role, afterwards } = entry.data as StudioData<'firing.packed'>;
  const { shelf, position, furniture } = place;
  const passage: Passage = {
    seq: entry.seq,
    firing,
    label,
    kiln,
    schedule,
    role,
    shelf,
    position,
    furniture,
    state: afterwards ?? 'packed',
    packedAt: entry.happenedAt,
    litAt: undefined,
    endedAt: afterwards ? entry.happenedAt : undefined,
    glazings: portion.glazings,
  };
  return {
    ...portion,
    passages: [...portion.passages, passage],
    stage: afterwards ? stageAfterFiring(role, portion.stage) : portion.stage,
    inFiring: afterwards === 'drawn' ? undefined : firing,
    changedAt: entry.happenedAt,
    changedSeq: entry.seq,
  };
}

function pack(lot: Lot, entry: Entry): Lot {
  const { places } = entry.data as StudioData<'firing.packed'>;
  const ours = places.filter((place) => isOfLot(place.piece, lot.lot));
  const portions = lot.portions.map((portion) => {
    const place = ours.find((it) => it.piece === portion.piece);
    return place ? packPortion(portion, place, entry) : portion;
  });
  return { ...lot, portions };
}

export function fireLot(lot: Lot, entry: Entry): Lot {
  if (entry.name === 'firing.packed') return pack(lot, entry);
  const fire = fires[entry.name];
  return fire ? throughFiring(lot, entry, fire) : lot;
}
