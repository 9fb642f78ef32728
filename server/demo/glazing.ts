/** Glazing what came out of the bisque, zone by zone; some lots in two glazes. */
import { weekday } from './calendar.ts';
import { TASTE } from './catalogue.ts';
import type { Ware } from './ware.ts';
import type { Yard } from './yard.ts';

export function glaze(yard: Yard): void {
  const tuesday = weekday(yard.day) === 2;
  yard.book.from('11:30');
  let kept = yard.toGo <= 12;
  for (const ware of [...yard.ware]) {
    if (ware.stage !== 'bisque-fired' || ware.due > yard.day || !ware.plan.cone || ware.packed) continue;
    if (ware.owner.kind === 'student' && !tuesday && ware.chance.whether(0.9)) continue;
    if (kept) {
      /* One lot waits for its glaze today. */
      kept = false;
      continue;
    }
    apply(yard, ware);
  }
}

function apply(yard: Yard, ware: Ware): void {
  const twoWays =
    ware.owner.kind === 'own' &&
    ware.count >= 8 &&
    ware.plan.cone === '6' &&
    !ware.plan.luck &&
    ware.chance.whether(0.25);
  if (twoWays) inTwo(yard, ware);
  applyAll(yard, ware);
}

function applyAll(yard: Yard, ware: Ware, from = 0): void {
  const { piece } = ware;
  for (const { zone, layers } of ware.plan.zones.slice(from)) {
    const wipedBack = zone === 'outside' && ware.item.form.endsWith('tile');
    yard.book.note('glaze.apply', { piece, zone, layers, ...(wipedBack ? { wipedBack } : {}) });
  }
  glazed(yard, ware);
}

function glazed(yard: Yard, ware: Ware): void {
  ware.stage = 'glazed';
  ware.due = yard.later(1);
}

/** Half of the lot gets another glaze where it shows; both were bisque fired together. */
function inTwo(yard: Yard, ware: Ware): void {
  const [shows, ...rest] = ware.plan.zones;
  const was = shows!.layers.at(-1)!;
  const { [was.glaze]: _, 'samphire-matt': __, ...others } = TASTE;
  const other = { ...was, glaze: ware.chance.weighted(others) };
  const zones = [{ zone: shows!.zone, layers: [other] }, ...rest];
  const count = Math.floor(ware.count / 2);
  const command = yard.book.note('glaze.apply', { piece: ware.piece, count, ...zones[0]! });
  const half = yard.part(ware, command, count, { ownSheet: true });
  half.plan = { ...ware.plan, zones };
  applyAll(yard, half, 1);
}
