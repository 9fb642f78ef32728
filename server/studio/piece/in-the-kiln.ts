/** What a firing's events do to the portions of a lot. */
import type { Entry } from '../../contract/entry.ts';
import type { StudioData } from '../../contract/studio/events.ts';
import type { Lot, Passage, Portion } from '../../contract/studio/state.ts';
import { lotOf } from '../../contract/studio/values.ts';
import { stageAfterFiring } from './moves.ts';

type Fire = (portion: Portion, passage: Passage, entry: Entry) => Partial<Portion>;

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
      : {},
};

/** Portions with an unfinished passage through this firing, each changed by `fire`. */
function throughFiring(lot: Lot, entry: Entry, fire: Fire): Lot {
  const { firing } = entry.data as { firing: string };
  const portions: Record<string, Portion> = { ...lot.portions };
  let touched = false;
  for (const portion of Object.values(lot.portions)) {
    const passage = portion.passages.findLast((p) => p.firing === firing);
    if (!passage || passage.state === 'drawn' || passage.state === 'abandoned') continue;
    const by = fire(portion, passage, entry);
    if (Object.keys(by).length === 0) continue;
    portions[portion.piece] = { ...portion, ...by, changedAt: entry.happenedAt, changedSeq: entry.seq };
    touched = true;
  }
  return touched ? { ...lot, portions } : lot;
}

function pack(lot: Lot, entry: Entry): Lot {
  const { places, afterwards, ...firing } = entry.data as StudioData<'firing.packed'>;
  const portions: Record<string, Portion> = { ...lot.portions };
  for (const place of places) {
    const portion = lotOf(place.piece) === lot.lot ? portions[place.piece] : undefined;
    if (!portion) continue;
    const { piece: _, count: __, ...where } = place;
    const passage: Passage = {
      seq: entry.seq,
      firing: firing.firing,
      ...(firing.label ? { label: firing.label } : {}),
      kiln: firing.kiln,
      ...(firing.schedule ? { schedule: firing.schedule } : {}),
      role: firing.role,
      ...where,
      state: afterwards ?? 'packed',
      packedAt: entry.happenedAt,
      ...(afterwards ? { endedAt: entry.happenedAt } : {}),
      glazings: portion.glazings,
    };
    portions[place.piece] = {
      ...portion,
      passages: [...portion.passages, passage],
      stage: afterwards ? stageAfterFiring(firing.role, portion.stage) : portion.stage,
      inFiring: afterwards === 'drawn' ? undefined : firing.firing,
      changedAt: entry.happenedAt,
      changedSeq: entry.seq,
    };
  }
  return { ...lot, portions };
}

export function fireLot(lot: Lot, entry: Entry): Lot {
  if (entry.name === 'firing.packed') return pack(lot, entry);
  const fire = fires[entry.name];
  return fire ? throughFiring(lot, entry, fire) : lot;
}
