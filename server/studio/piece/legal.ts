/** Which entry may follow on a lot: reads the table of moves, says why not. */
import type { Entry } from '../../contract/entry.ts';
import type { StudioData, StudioEventName } from '../../contract/studio/events.ts';
import type { Lot, Portion } from '../../contract/studio/state.ts';
import { isOfLot, portionIn } from '../../contract/studio/values.ts';
import { MOVES, type Move, PACKING, refused } from './moves.ts';

/** How a piece is called in a sentence: 'K7RTX (12 × beaker)'. */
export function called(portion: Portion): string {
  const many = portion.count > 1 ? `${portion.count} × ` : '';
  const what = `${many}${portion.form ?? 'piece'}`;
  return portion.mark ? `${portion.mark} (${what})` : what;
}

const inKiln = (portion: Portion) =>
  portion.inFiring ? portion.passages.findLast((p) => p.firing === portion.inFiring) : undefined;

/** Why a piece that stands in a kiln cannot be worked on; undefined when it does not, or may be taken out. */
function stuckInKiln(portion: Portion, mayTakeOut: boolean): string | undefined {
  const passage = inKiln(portion);
  if (!passage) return undefined;
  const firing = passage.label ?? 'a firing';
  if (passage.state === 'packed')
    return `It is packed in ${firing} and not yet fired; take it out of the load first.`;
  if (passage.state === 'lit')
    return `It is in the kiln (${firing}), which has not ended; note the end of the firing first.`;
  return mayTakeOut ? undefined : `It is still in the kiln (${firing}); draw it first.`;
}

const whole = (portion: Portion, count: number): string | undefined =>
  count === portion.count
    ? undefined
    : count > portion.count
      ? `There are only ${portion.count} in ${called(portion)}, not ${count}.`
      : `${count} of ${called(portion)} would have to be split off first.`;

type Check<Name extends StudioEventName> = (
  lot: Lot,
  data: StudioData<Name>,
  portion: Portion,
) => string | undefined;

const glazeMove = (portion: Portion, data: StudioData<'glaze.applied'>): Move =>
  !data.stagesNotNoted && (portion.stage === 'made' || portion.stage === 'leather-hard')
    ? MOVES.slip
    : MOVES.glaze;

const checks: { readonly [Name in StudioEventName]?: Check<Name> } = {
  'piece.moved-on': (_, data, portion) => {
    if (data.stage !== 'leather-hard' && data.stage !== 'bone-dry')
      return `A piece is moved on by hand to leather-hard or bone-dry only; ${data.stage} follows from what is done with it.`;
    const move = data.stage === 'leather-hard' ? MOVES.leatherHard : MOVES.boneDry;
    return stuckInKiln(portion, false) ?? refused(move, portion.stage) ?? whole(portion, data.count);
  },
  'lot.split': (lot, data, portion) => {
    const taken = data.into.reduce((sum, part) => sum + part.count, 0);
    if (taken >= portion.count)
      return `${called(portion)} has ${portion.count}; at most ${portion.count - 1} can be split off, not ${taken}.`;
    const ids = data.into.map((part) => part.piece);
    if (
      new Set(ids).size < ids.length ||
      ids.some((piece) => portionIn(lot, piece) || !isOfLot(piece, lot.lot))
    )
      return 'A part that is split off needs an id of its own in the same lot.';
    return undefined;
  },
  'glaze.applied': (_, data, portion) =>
    stuckInKiln(portion, false) ??
    (data.stagesNotNoted && portion.stage !== 'left'
      ? undefined
      : refused(glazeMove(portion, data), portion.stage)),
  'fault.found': (_, data, portion) =>
    refused(MOVES.fault, portion.stage) ??
    stuckInKiln(portion, true) ??
    (data.count > portion.count
      ? `The fault can't be on ${data.count}: there are only ${portion.count} in ${called(portion)}.`
      : undefined),
  'piece.graded': (_, data, portion) => {
    const counts = [data.first, data.second, data.waster];
    const total = counts.reduce((sum, n) => sum + n, 0);
    return (
      stuckInKiln(portion, true) ??
      refused(MOVES.grade, portion.stage) ??
      whole(portion, total) ??
      (counts.filter((n) => n > 0).length > 1 ? 'A lot of mixed grades is split by grade first.' : undefined)
    );
  },
  'repair.decided': (_, data, portion) =>
    stuckInKiln(portion, true) ?? refused(MOVES.decideRepair, portion.stage) ?? whole(portion, data.count),
  'repair.done': (_, data, portion) =>
    stuckInKiln(portion, true) ?? refused(MOVES.doRepair, portion.stage) ?? whole(portion, data.count),
  'repair.declined': (_, data, portion) =>
    stuckInKiln(portion, true) ?? refused(MOVES.declineRepair, portion.stage) ?? whole(portion, data.count),
  'piece.owner-told': (_, data, portion) =>
    portion.owner.kind === 'own'
      ? 'It is own stock: there is nobody to tell.'
      : (refused(MOVES.tellOwner, portion.stage) ?? whole(portion, data.count)),
  'piece.priced': (_, __, portion) =>
    portion.stage === 'left' ? 'It has left; what it sold for is part of its leaving.' : undefined,
  'piece.left': (_, data, portion) => {
    const move = data.how === 'sold' || data.how === 'posted' ? MOVES.sell : MOVES.leave;
    return refused(move, portion.stage) ?? stuckInKiln(portion, true) ?? whole(portion, data.count);
  },
  'piece.returned': (_, data, portion) => {
    if (portion.left?.how === 'broken-up') return 'It was broken up and cannot come back.';
    return refused(MOVES.comeBack, portion.stage) ?? whole(portion, data.count);
  },
  'piece.recounted': (_, __, portion) => refused(MOVES.fault, portion.stage),
};

/** Each piece of this lot that the load names must be free, whole and at a stage that this firing takes. */
function legalToPack(lot: Lot, data: StudioData<'firing.packed'>): string | undefined {
  for (const place of data.places) {
    if (!isOfLot(place.piece, lot.lot)) continue;
    const portion = portionIn(lot, place.piece);
    if (!portion) return `The load names a piece that is not there.`;
    const waved = data.stagesNotNoted && portion.stage !== 'left' && portion.stage !== 'glaze-fired';
    const why =
      stuckInKiln(portion, false) ??
      (waved ? undefined : refused(PACKING[data.role], portion.stage)) ??
      whole(portion, place.count);
    if (why) return `${called(portion)}: ${why}`;
  }
  return undefined;
}

export function legalOnLot(lot: Lot, entry: Entry): string | undefined {
  if (entry.name === 'piece.begun')
    return portionIn(lot, (entry.data as StudioData<'piece.begun'>).piece)
      ? 'This piece was begun already.'
      : undefined;
  if (entry.name === 'firing.packed') return legalToPack(lot, entry.data as StudioData<'firing.packed'>);
  if (entry.name.startsWith('firing.')) return undefined;
  const check = checks[entry.name as StudioEventName] as Check<StudioEventName> | undefined;
  const piece = (entry.data as { piece?: string }).piece;
  if (piece === undefined) return undefined;
  const portion = portionIn(lot, piece);
  if (!portion) return 'There is no such piece at that time; begin it first, or give a later date.';
  return check?.(lot, entry.data as StudioData<StudioEventName>, portion);
}
