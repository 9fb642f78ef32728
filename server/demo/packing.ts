/** Choosing a load and placing it, shelf by shelf. */
import type { FiringRole, FURNITURE } from '../contract/trade.ts';
import type { Kiln, Load } from './kiln.ts';
import { glazeOf, roomOf, type Ware } from './ware.ts';
import type { Yard } from './yard.ts';

/** Ware that could go together. */
export interface Choice {
  readonly role: FiringRole;
  readonly schedule: string;
  readonly ware: readonly Ware[];
}

const READY: Readonly<Record<string, (ware: Ware) => FiringRole | undefined>> = {
  'bone-dry': () => 'bisque',
  glazed: (ware) => (ware.lustred ? 'lustre' : 'glaze'),
  mending: (ware) => (ware.repair?.done ? 'glaze' : undefined),
};

/** Of these there is seldom enough for the large kiln. */
const SMALL_LOADS = ['daytime-bisque-06', 'cone 04', 'lustre-018'] as const;

const GLAZE_6 = { 'glaze-6-plain': 5, 'glaze-6-soak': 3, 'glaze-6-slow-cool': 2 } as const;

/** What is ready for this kiln, by role and by what can be fired together. */
function ready(yard: Yard, kiln: Kiln): Map<string, Ware[]> {
  const groups = new Map<string, Ware[]>();
  for (const ware of yard.ware) {
    if (ware.packed || ware.due > yard.day) continue;
    const role = READY[ware.stage]?.(ware);
    if (!role || !kiln.roles.includes(role)) continue;
    const together =
      role === 'bisque' ? ware.plan.bisque : role === 'lustre' ? 'lustre-018' : `cone ${ware.plan.cone}`;
    const key = `${role}:${together}`;
    groups.set(key, [...(groups.get(key) ?? []), ware]);
  }
  return groups;
}

/** Whether it is worth a firing: the kiln is full, or nearly so and the ware has waited for some days. */
function isWorthIt(kiln: Kiln, key: string, full: number, waited: number): boolean {
  if (kiln.large) return full > 0.85 || (full > 0.4 && waited > 12);
  const small = SMALL_LOADS.some((group) => key.endsWith(group));
  if (small) return full > 0.85 || (full > 0.4 && waited > 24);
  return full > 0.6 && waited > 13;
}

/** What the last loads before today are to be: the glost one is drawn today, and the other burns. */
const LAST_LOADS: Readonly<Record<string, readonly string[]>> = {
  'big-round': ['glaze:cone 6', 'bisque:overnight-bisque-06'],
  'little-square': ['bisque:overnight-bisque-06', 'glaze:cone 04', 'glaze:cone 6'],
  thimble: ['lustre:lustre-018'],
};

/** The fullest load that is worth a firing; when it is the last, the first that there is. */
export function loadFor(yard: Yard, kiln: Kiln, last: boolean): Choice | undefined {
  const groups = ready(yard, kiln);
  const only = last ? LAST_LOADS[kiln.id]!.find((key) => groups.has(key)) : undefined;
  let best: { key: string; ware: Ware[]; worth: number } | undefined;
  for (const [key, ware] of groups) {
    const full = ware.reduce((sum, one) => sum + roomOf(one), 0) / kiln.room;
    const oldest = Math.min(...ware.map((one) => Date.parse(one.due)));
    const waited = (Date.parse(yard.day) - oldest) / 86_400_000;
    const worth = Math.min(full, 1) + waited / 30;
    if (last ? key !== only : !isWorthIt(kiln, key, full, waited)) continue;
    if (!best || worth > best.worth) best = { key, ware, worth };
  }
  if (!best) return undefined;
  const [role, together] = best.key.split(':') as [FiringRole, string];
  const chance = yard.chance.of(`schedule ${yard.day} ${kiln.id}`);
  const schedule =
    together === 'cone 6' ? chance.weighted(GLAZE_6) : together === 'cone 04' ? 'earthenware-04' : together;
  return { role, schedule, ware: best.ware };
}

const POSITIONS = ['front', 'back', 'left', 'right', 'middle'] as const;
const LABELS: Readonly<Record<FiringRole, string>> = {
  bisque: 'Bisque',
  glaze: 'Glaze',
  lustre: 'Lustre',
  other: 'Firing',
};

type Furniture = (typeof FURNITURE)[number];

function furnitureFor(ware: Ware, role: FiringRole): Furniture[] {
  if (role !== 'glaze') return [];
  const under: Furniture[] = ['wash'];
  const glaze = glazeOf(ware);
  if (glaze === 'quicksilver-run') under.push('catcher');
  if (ware.plan.cone === '04' || ware.repair?.method === 'refire-inverted') under.push('stilt');
  if (ware.item.form.endsWith('tile')) under.push('bar');
  return under;
}

/** The oldest ware first; of a lot too large for what is left, some. */
export function packLoad(yard: Yard, kiln: Kiln, { role, schedule, ware }: Choice): Load {
  const { book } = yard;
  const firing = book.id();
  const chance = yard.chance.of(firing);
  const chosen: { ware: Ware; count: number; before: number }[] = [];
  let used = 0;
  for (const one of [...ware].sort((a, b) => (a.due < b.due ? -1 : a.due > b.due ? 1 : 0))) {
    const fits = Math.min(one.count, Math.floor((kiln.room - used) / one.item.room));
    /* A few are not worth breaking a lot for. */
    if (fits < one.count && fits < 4 && chosen.length > 0) continue;
    const count = Math.max(fits, 1);
    chosen.push({ ware: one, count, before: used });
    used += count * one.item.room;
    if (used >= kiln.room - 0.5) break;
  }
  const label = `${LABELS[role]} ${yard.nextNumber(role)}`;
  const places = chosen.map(({ ware: one, count, before }) => {
    const furniture = furnitureFor(one, role);
    return {
      piece: one.piece,
      ...(count < one.count ? { count } : {}),
      shelf: 1 + Math.floor((before / used) * kiln.shelves),
      position: chance.pick(POSITIONS),
      ...(furniture.length > 0 ? { furniture } : {}),
    };
  });
  const command = book.note('firing.pack', { firing, label, kiln: kiln.id, schedule, role, places });
  const placed = chosen.map(({ ware: one, count }, n) => {
    const shelf = places[n]!.shelf;
    const part = count < one.count ? yard.part(one, command, count, { n, ownSheet: true }) : one;
    part.packed = true;
    return { ware: part, shelf };
  });
  return { firing, label, kiln: kiln.id, schedule, role, placed, chance: chance.of('load') };
}
