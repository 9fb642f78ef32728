/** Ware dries: leather-hard after a few days, bone-dry after a week or two. Some cracks. */
import { TRUTH } from './truth.ts';
import type { Ware } from './ware.ts';
import type { Yard } from './yard.ts';

export function dry(yard: Yard): void {
  for (const ware of [...yard.ware]) {
    if (ware.due > yard.day) continue;
    if (ware.stage === 'made') becomeLeatherHard(yard, ware);
    else if (ware.stage === 'leather-hard') becomeBoneDry(yard, ware);
  }
}

/** Class pieces and ware for hire are only noted when they are dry. */
function becomeLeatherHard(yard: Yard, ware: Ware): void {
  if (ware.owner.kind === 'hire') {
    becomeBoneDry(yard, ware);
    return;
  }
  if (ware.owner.kind !== 'student')
    yard.book.note('piece.move-on', { piece: ware.piece, stage: 'leather-hard' });
  ware.stage = 'leather-hard';
  ware.due = yard.later(ware.chance.between(4, 8));
}

function becomeBoneDry(yard: Yard, ware: Ware): void {
  const cracked = losses(ware, TRUTH.beforeGlazing.drying);
  const whole = cracked < ware.count;
  if (cracked > 0) breakUp(yard, ware, cracked, 'crack');
  if (!whole) return;
  yard.book.note('piece.move-on', { piece: ware.piece, stage: 'bone-dry' });
  ware.stage = 'bone-dry';
  ware.due = yard.later(1);
}

/** How many of the lot are lost, each by itself. */
export function losses(ware: Ware, chance: number): number {
  let lost = 0;
  for (let n = 0; n < ware.count; n++) if (ware.chance.whether(chance)) lost++;
  return lost;
}

/** Splits the spoiled ones off, notes what is wrong with them, and breaks them up. */
export function breakUp(yard: Yard, ware: Ware, count: number, fault: string): void {
  const { book } = yard;
  let spoiled = ware;
  if (count < ware.count) {
    const command = book.note('lot.split', { piece: ware.piece, into: [{ count }] });
    spoiled = yard.part(ware, command, count, { ownSheet: true });
  }
  const zone = ware.chance.pick(['rim', 'base', 'outside']);
  book.note('fault.find', { piece: spoiled.piece, kind: fault, zone, severity: 'bad' });
  spoiled.sheet.faults.push({ kind: fault, zone, count });
  yard.leave(spoiled, 'broken-up');
}
