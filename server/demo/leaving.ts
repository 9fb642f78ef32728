/** Ware leaves: sold, posted, given, collected, broken up; a little comes back. */
import { weekday } from './calendar.ts';
import { BUYERS } from './names.ts';
import type { Ware } from './ware.ts';
import type { Yard } from './yard.ts';

export function leave(yard: Yard): void {
  yard.book.from('16:15');
  for (const ware of [...yard.ware]) {
    if (ware.packed || ware.due > yard.day) continue;
    switch (ware.owner.kind) {
      case 'own':
        if (ware.stage === 'graded') ownLeaves(yard, ware);
        break;
      case 'commission':
        if (ware.stage === 'graded') clientCollects(yard, ware);
        break;
      case 'student':
        if (ware.stage === 'glaze-fired' && weekday(yard.day) === 2) collect(yard, ware, 0.7);
        break;
      case 'hire':
        if (ware.stage === 'glaze-fired' || (ware.stage === 'bisque-fired' && !ware.plan.cone))
          collect(yard, ware, 0.5);
        break;
    }
  }
}

function collect(yard: Yard, ware: Ware, chance: number): void {
  if (!ware.chance.whether(chance) || ware.owner.kind === 'own') return;
  yard.leave(ware, 'collected', { to: ware.owner.person });
}

/** A client takes the firsts, and what is left over is broken up or kept as it is. */
function clientCollects(yard: Yard, ware: Ware): void {
  if (ware.owner.kind !== 'commission') return;
  if (ware.grade === 'waster') yard.leave(ware, 'broken-up');
  else if (ware.grade === 'first' && ware.chance.whether(0.15))
    yard.leave(ware, 'collected', { to: ware.owner.person, price: ware.price! });
}

/** Open studio on Saturdays, a market before Christmas and at midsummer, parcels in between. */
function ownLeaves(yard: Yard, ware: Ware): void {
  if (ware.grade === 'waster') {
    if (ware.chance.whether(0.15)) yard.leave(ware, 'broken-up');
    return;
  }
  const market = ['11', '12', '06'].includes(yard.day.slice(5, 7));
  const saturday = weekday(yard.day) === 6;
  const chance = saturday ? (market ? 0.42 : 0.24) : weekday(yard.day) === 0 ? 0 : 0.02;
  if (!ware.chance.whether(chance)) return;
  const count = Math.min(ware.count, ware.chance.weighted({ 1: 4, 2: 4, 4: 3, 6: 2 }) as unknown as number);
  const how = saturday ? ware.chance.weighted({ sold: 20, given: 1 }) : 'posted';
  sell(yard, ware, Number(count), how);
}

function sell(yard: Yard, ware: Ware, count: number, how: string): void {
  const price = how === 'given' ? {} : { price: ware.price! };
  /* A single piece sold on Saturday is now and then only written down on Tuesday. */
  const late = ware.count === 1 && how === 'sold' && yard.toGo > 4 && ware.chance.whether(0.15);
  if (late) {
    yard.book.noteLater('piece.leave', { piece: ware.piece, how, ...price }, yard.later(3));
    yard.gone(ware, how);
    return;
  }
  const to = how === 'posted' ? { to: yard.person(ware.chance.pick(BUYERS)) } : {};
  const gone = yard.leave(ware, how, { count, ...price, ...to });
  if (how === 'posted' && yard.toGo > 20 && gone.chance.whether(0.08))
    yard.comingBack.push({ ware: gone, day: yard.later(12) });
}

/** A parcel comes back with something broken in it, or crazed weeks later. */
export function comeBack(yard: Yard): void {
  for (const { ware, day } of yard.comingBack) {
    if (day !== yard.day) continue;
    const { piece } = ware;
    yard.book.note('piece.return', {
      piece,
      from: 'post',
      note: 'The buyer sent a picture; money given back.',
    });
    yard.book.note('fault.find', {
      piece,
      kind: 'crazing',
      zone: ware.item.zones[0] ?? 'outside',
      severity: 'slight',
    });
    ware.stage = 'graded';
    ware.grade = 'second';
    ware.fault = 'crazing';
    ware.due = yard.later(9);
    yard.book.note('piece.grade', { piece, second: ware.count });
    yard.ware.push(ware);
  }
}
