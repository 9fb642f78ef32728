/** Drawing a kiln: what came out, fault by fault, and how it is graded. */
import { GRADES, type Grade } from '../contract/trade.ts';
import type { Chance } from './chance.ts';
import { breakUp, losses } from './drying.ts';
import type { Kiln, Load, Placed } from './kiln.ts';
import { type Chances, TRUTH } from './truth.ts';
import { gbp, glazeOf, isOwn, secondPrice, type Ware, type WentThrough } from './ware.ts';
import type { Yard } from './yard.ts';

const NOTES = [
  'Top shelf a shade hotter than the rest.',
  'Slow to climb past 1,100; the elements are tiring.',
  'Even all through, cones within a whisker.',
  'One prop had shifted; nothing touched.',
] as const;

function cones({ role, schedule, chance }: Load, kiln: Kiln) {
  const cone =
    role === 'bisque' ? '06' : role === 'lustre' ? '018' : schedule === 'earthenware-04' ? '04' : '6';
  return [1, kiln.shelves].map((shelf) => {
    const cool = shelf > 1 && kiln.id === 'big-round' && role === 'glaze';
    const bend = cool ? ('leaning' as const) : chance.weighted({ down: 6, leaning: 2, flat: 1 });
    return { shelf, cone, bend };
  });
}

export function draw(yard: Yard, kiln: Kiln, load: Load): void {
  const note = load.chance.whether(0.15) ? { note: load.chance.pick(NOTES) } : {};
  yard.book.note('firing.draw', { firing: load.firing, cones: cones(load, kiln), ...note });
  const { label, schedule } = load;
  const through: WentThrough = { label, kiln: load.kiln, schedule, day: load.ended! };
  const spread = TRUTH.firingSpread;
  const factor = Math.exp(spread * load.chance.normal() - spread ** 2 / 2);
  let leftForLater = yard.toGo <= 12 && load.role === 'glaze';
  for (const placed of load.placed) {
    const { ware } = placed;
    ware.packed = false;
    ware.due = yard.later(ware.chance.between(1, 5));
    if (load.role === 'bisque') {
      outOfBisque(yard, ware, through);
      continue;
    }
    ware.stage = 'glaze-fired';
    if (load.role === 'glaze' && !ware.repair) ware.sheet.glaze = through;
    if (ware.owner.kind === 'own' && leftForLater && !ware.mended) {
      /* Of one of the last loads, one lot is still to be looked over. */
      leftForLater = false;
      ware.due = yard.today;
      continue;
    }
    lookOver(yard, placed, load, kiln, factor);
  }
}

function outOfBisque(yard: Yard, ware: Ware, through: WentThrough): void {
  ware.stage = 'bisque-fired';
  ware.bisqued = through.schedule;
  ware.sheet.bisque = through;
  const lost = ware.plan.luck ? 0 : losses(ware, TRUTH.beforeGlazing.bisque);
  const whole = lost < ware.count;
  if (lost > 0) breakUp(yard, ware, lost, ware.chance.weighted({ crack: 3, broken: 1 }));
  if (!whole || ware.plan.cone) return;
  if (ware.owner.kind === 'own') grade(yard, ware, { first: ware.count, second: 0, waster: 0 });
}

/** Every cause that could give this piece a fault, with its own chance. */
function causes({ ware, shelf }: Placed, load: Load, kiln: Kiln): Chances[] {
  const at = (table: Readonly<Record<string, Chances>>, key: string | undefined) => table[key ?? ''] ?? {};
  if (load.role === 'lustre') return [at(TRUTH.glazes, 'lamplight-gold')];
  return [
    TRUTH.background,
    at(TRUTH.glazes, glazeOf(ware)),
    at(TRUTH.bisque, ware.bisqued),
    shelf === kiln.shelves ? at(TRUTH.lowestShelf, kiln.id) : {},
  ];
}

/** The faults of one piece. */
function faultsOf(chance: Chance, all: readonly Chances[], factor: number): string[] {
  const found = new Set<string>();
  for (const cause of all)
    for (const [fault, probability] of Object.entries(cause))
      if (chance.whether(Math.min(0.95, probability * factor))) found.add(fault);
  return [...found];
}

/** What the faults cost: the worst of them counts. */
function costOf(chance: Chance, faults: readonly string[]): Grade {
  let worst: Grade = 'first';
  for (const fault of faults) {
    const { second = 0, waster = 0 } = (
      TRUTH.costs as Readonly<Record<string, Partial<Record<Grade, number>>>>
    )[fault]!;
    const drawn = chance.fraction();
    if (drawn < waster) return 'waster';
    if (drawn < waster + second) worst = 'second';
  }
  return worst;
}

interface Found {
  readonly counts: Map<string, number>;
  readonly grades: Record<Grade, number>;
}

function look(placed: Placed, load: Load, kiln: Kiln, factor: number): Found {
  const { ware } = placed;
  const counts = new Map<string, number>();
  const grades = { first: 0, second: 0, waster: 0 };
  const { luck } = ware.plan;
  if (luck) {
    counts.set(luck.fault, luck.seconds);
    return { counts, grades: { ...grades, first: ware.count - luck.seconds, second: luck.seconds } };
  }
  const all = causes(placed, load, kiln);
  for (let n = 0; n < ware.count; n++) {
    const faults = faultsOf(ware.chance, all, factor);
    for (const fault of faults) counts.set(fault, (counts.get(fault) ?? 0) + 1);
    grades[costOf(ware.chance, faults)]++;
  }
  return { counts, grades };
}

/** After a repair the only question is whether it worked. */
function lookAtMended({ ware }: Placed): Found {
  const { method, fault } = ware.repair!;
  const works = (TRUTH.repairs as Readonly<Record<string, Chances>>)[fault]?.[method] ?? 0;
  const grades = { first: 0, second: 0, waster: 0 };
  for (let n = 0; n < ware.count; n++) grades[ware.chance.whether(works) ? 'first' : 'second']++;
  const counts = new Map(grades.second > 0 ? [[fault, grades.second]] : []);
  return { counts, grades };
}

const ZONES: Readonly<Record<string, readonly string[]>> = {
  runs: ['foot', 'outside'],
  stuck: ['foot'],
  'stilt-marks': ['base'],
  crack: ['base', 'rim', 'handle'],
  crazing: ['inside'],
};

function lookOver(yard: Yard, placed: Placed, load: Load, kiln: Kiln, factor: number): void {
  const { ware } = placed;
  const mended = ware.repair !== undefined;
  const { counts, grades } = mended ? lookAtMended(placed) : look(placed, load, kiln, factor);
  const others = !isOwn(ware);
  for (const [kind, count] of counts) {
    if (others && ware.chance.whether(0.5)) continue;
    const zone = ware.chance.pick(ZONES[kind] ?? ware.item.zones);
    const severity = ware.chance.weighted({ slight: 3, plain: 5, bad: 2 });
    const size = kind === 'runs' || kind === 'crawling' ? { size: ware.chance.between(2, 25) } : {};
    yard.book.note('fault.find', { piece: ware.piece, kind, zone, count, severity, ...size });
    if (!mended) ware.sheet.faults.push({ kind, zone, count });
  }
  ware.fault = mended ? ware.repair!.fault : [...counts.keys()][0];
  if (others) return;
  grade(yard, ware, grades);
}

/** Grades it, and takes the lot apart as the studio does: the first grade given keeps the lot's own id. */
export function grade(yard: Yard, ware: Ware, counts: Record<Grade, number>): void {
  const prices = ware.price
    ? { price: gbp(ware.item.price), secondPrice: gbp(secondPrice(ware.item.price)) }
    : {};
  const given = GRADES.filter((g) => counts[g] > 0);
  const said = Object.fromEntries(given.map((g) => [g, counts[g]]));
  const command = yard.book.note('piece.grade', { piece: ware.piece, ...said, ...prices });
  if (!ware.lustred) ware.sheet.grades = { ...counts };
  const [keeps, ...others] = given;
  const parts: [Ware, Grade][] = others
    .toReversed()
    .map((g, n) => [yard.part(ware, command, counts[g], { n }), g]);
  for (const [part, g] of [[ware, keeps!] as [Ware, Grade], ...parts]) {
    if (part.repair) part.mended = true;
    part.repair = undefined;
    part.stage = 'graded';
    part.grade = g;
    part.due = yard.later(part.chance.between(2, 21));
    if (part.item.price > 0)
      part.price = gbp(g === 'second' ? secondPrice(part.item.price) : part.item.price);
  }
}
