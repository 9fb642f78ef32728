/** Seconds are mended where it may be worth it: decided, done, fired again where it must be. */

import { grade } from './drawing.ts';
import type { Chances } from './truth.ts';
import { TRUTH } from './truth.ts';
import { glazeOf, isOwn, type Ware } from './ware.ts';
import type { Yard } from './yard.ts';

const REPAIRS = TRUTH.repairs as Readonly<Record<string, Chances>>;

export function mend(yard: Yard): void {
  yard.book.from('11:00');
  for (const ware of [...yard.ware]) {
    if (ware.packed || ware.due > yard.day) continue;
    if (ware.stage === 'mending' && ware.repair && !ware.repair.done) doRepair(yard, ware);
    else if (ware.stage === 'graded' && ware.grade === 'second' && !ware.mended && ware.chance.whether(0.12))
      decide(yard, ware);
  }
  const mending = yard.ware.some((ware) => ware.stage === 'mending' && !ware.packed && !ware.repair?.done);
  if (yard.toGo === 1 && !mending) oneMore(yard);
}

/** Something lies on the mending shelf today. */
function oneMore(yard: Yard): void {
  const second = yard.ware.find(
    (ware) => ware.grade === 'second' && ware.stage === 'graded' && isOwn(ware) && REPAIRS[ware.fault ?? ''],
  );
  if (second) decide(yard, second);
}

function decide(yard: Yard, ware: Ware): void {
  const fault = ware.fault;
  const methods = REPAIRS[fault ?? ''];
  if (!fault || !methods || !isOwn(ware)) return;
  const method = ware.chance.pick(Object.keys(methods));
  const note = ware.owner.kind === 'commission' ? { note: 'Asked the client first; they agree.' } : {};
  yard.book.note('repair.decide', { piece: ware.piece, method, fault, ...note });
  yard.ownRow(ware);
  ware.repair = { method, fault, done: false };
  ware.stage = 'mending';
  ware.due = yard.later(ware.chance.between(2, 9));
}

function doRepair(yard: Yard, ware: Ware): void {
  const { piece, repair } = ware;
  const { method, fault } = repair!;
  yard.book.note('repair.do', { piece, method, fault });
  ware.sheet.repairs.push(method);
  ware.repair = { method, fault, done: true };
  ware.due = yard.later(1);
  if (method === 'grind') {
    ground(yard, ware);
    return;
  }
  const layers = [{ glaze: glazeOf(ware)!, coats: 1, method: 'brushed' as const }];
  const zone = ware.plan.zones[0]!.zone;
  if (method === 'fill-and-reglaze' || method === 'reglaze-over') {
    yard.book.note('glaze.apply', { piece, zone, layers });
    ware.stage = 'glazed';
  }
}

/** Grinding needs no firing: it is looked at again at once. */
function ground(yard: Yard, ware: Ware): void {
  const { fault } = ware.repair!;
  const works = REPAIRS[fault]!.grind ?? 0;
  const counts = { first: 0, second: 0, waster: 0 };
  for (let n = 0; n < ware.count; n++) counts[ware.chance.whether(works) ? 'first' : 'second']++;
  grade(yard, ware, counts);
}
