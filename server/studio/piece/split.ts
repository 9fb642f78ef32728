/** A lot comes apart: what goes along with the part that is split off. */
import type { Entry } from '../../contract/entry.ts';
import type { StudioData } from '../../contract/studio/events.ts';
import type { FoundFault, Lot, Portion } from '../../contract/studio/state.ts';

type Part = StudioData<'lot.split'>['into'][number];

/** Faults named in the split go with the part; a fault of every piece goes with every piece. */
function shareFaults(portion: Portion, part: Part, rest: readonly FoundFault[], restCount: number) {
  const gone: FoundFault[] = [];
  const stays: FoundFault[] = [];
  for (const fault of rest) {
    const named = part.faults?.find((f) => f.entry === fault.seq)?.count ?? 0;
    const everywhere = fault.count === portion.count;
    const tooMany = fault.count - restCount;
    const taken = Math.min(part.count, fault.count, Math.max(named, everywhere ? part.count : 0, tooMany));
    if (taken > 0) gone.push({ ...fault, count: taken });
    if (fault.count > taken) stays.push({ ...fault, count: fault.count - taken });
  }
  return { gone, stays };
}

export function splitLot(lot: Lot, data: StudioData<'lot.split'>, entry: Entry): Lot {
  let portion = lot.portions[data.piece];
  if (!portion) return lot;
  const portions = { ...lot.portions };
  const changed = { changedAt: entry.happenedAt, changedSeq: entry.seq };
  for (const part of data.into) {
    const count: number = portion.count - part.count;
    const { gone, stays } = shareFaults(portion, part, portion.faults, count);
    portions[part.piece] = {
      ...portion,
      ...changed,
      piece: part.piece,
      mark: part.mark ?? portion.mark,
      count: part.count,
      faults: gone,
      from: data.piece,
    };
    portion = { ...portion, ...changed, count, faults: stays };
  }
  portions[data.piece] = portion;
  return { ...lot, portions };
}
