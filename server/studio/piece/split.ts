/** A lot comes apart: what goes along with the part that is split off. */
import type { Entry } from '../../contract/entry.ts';
import type { StudioData } from '../../contract/studio/events.ts';
import type { FoundFault, Lot, Portion } from '../../contract/studio/state.ts';
import { portionIn } from '../../contract/studio/values.ts';

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
  const whole = portionIn(lot, data.piece);
  if (!whole) return lot;
  const changed = { changedAt: entry.happenedAt, changedSeq: entry.seq };
  let rest = whole;
  const parts: Portion[] = [];
  for (const part of data.into) {
    const count = rest.count - part.count;
    const { gone, stays } = shareFaults(rest, part, rest.faults, count);
    parts.push({
      ...rest,
      ...changed,
      piece: part.piece,
      mark: part.mark ?? rest.mark,
      count: part.count,
      faults: gone,
      from: data.piece,
    });
    rest = { ...rest, ...changed, count, faults: stays };
  }
  return { ...lot, portions: [...lot.portions.map((it) => (it === whole ? rest : it)), ...parts] };
}
