/** The kilns: packing, lighting, ending and drawing, each when it can be. */
import { dayAfter } from './calendar.ts';
import { draw } from './drawing.ts';
import type { Kiln, Load } from './kiln.ts';
import { loadFor, packLoad } from './packing.ts';
import type { Yard } from './yard.ts';

export const newKilns = (): Kiln[] => [
  { id: 'big-round', shelves: 5, room: 68, large: true, cools: 2, roles: ['bisque', 'glaze'] },
  { id: 'little-square', shelves: 3, room: 22, cools: 1, roles: ['bisque', 'glaze'] },
  { id: 'thimble', shelves: 2, room: 9, cools: 1, roles: ['lustre'] },
];

/** °C: what the kiln showed at its end, about. */
const TOPS: Readonly<Record<string, number>> = {
  'overnight-bisque-06': 999,
  'daytime-bisque-06': 1005,
  'glaze-6-plain': 1222,
  'glaze-6-soak': 1212,
  'glaze-6-slow-cool': 1218,
  'earthenware-04': 1060,
  'lustre-018': 717,
};

/** Fired by day: packed the day before, lit in the morning, off by the evening. */
const byDay = (load: Load) => load.schedule === 'daytime-bisque-06' || load.role === 'lustre';

function light(yard: Yard, load: Load): void {
  yard.book.note('firing.light', { firing: load.firing });
  load.lit = yard.day;
}

function end(yard: Yard, kiln: Kiln, load: Load): void {
  const { book } = yard;
  if (yard.toGo < 70)
    book.note('firing.read', { firing: load.firing, readings: readings(load) }, { device: 'laptop' });
  const top = TOPS[load.schedule]! + load.chance.between(-4, 4);
  book.note('firing.end', { firing: load.firing, top });
  load.ended = yard.day;
  load.drawFrom = dayAfter(yard.day, kiln.cools + (load.chance.whether(0.2) ? 1 : 0));
}

/** Every half hour, a plain climb with the kiln's own wobble. Minutes and °C. */
function readings(load: Load): [number, number][] {
  const top = TOPS[load.schedule]!;
  const hours = byDay(load) ? 9 : 11.5;
  const steps = hours * 2;
  return Array.from({ length: steps + 1 }, (_, n) => {
    const climb = (n / steps) ** 0.85;
    return [n * 30, Math.round(18 + (top - 18) * climb + load.chance.between(-3, 3) * (n < steps ? 1 : 0))];
  });
}

/** In the morning the night's firings have ended, and cold kilns are drawn. */
export function morning(yard: Yard, kilns: readonly Kiln[]): void {
  for (const kiln of kilns) {
    const { load } = kiln;
    if (load?.lit && !load.ended && !byDay(load)) end(yard, kiln, load);
    if (load && !load.lit && byDay(load) && !(kiln.id === 'thimble' && yard.toGo <= 1)) {
      yard.book.from('08:05');
      light(yard, load);
    }
  }
  yard.book.from('09:30');
  for (const kiln of kilns) {
    const { load } = kiln;
    if (!load?.ended || load.drawFrom! > yard.day || (kiln.id === 'big-round' && yard.toGo <= 1)) continue;
    draw(yard, kiln, load);
    kiln.load = undefined;
  }
}

/** Before today: one kiln is to stand packed, one lit, one ended and not yet drawn. */
const LAST_PACKING: Readonly<Record<string, number>> = { 'big-round': 2, 'little-square': 1, thimble: 1 };
const KEPT_FREE_FROM: Readonly<Record<string, number>> = { 'big-round': 7, 'little-square': 6, thimble: 9 };

/** In the afternoon free kilns are packed when there is enough for a load. */
export function afternoon(yard: Yard, kilns: readonly Kiln[]): void {
  yard.book.from('14:30');
  for (const kiln of kilns) {
    if (kiln.load) continue;
    const last = LAST_PACKING[kiln.id]!;
    const mustPack = yard.toGo === last;
    if (!mustPack && yard.toGo <= KEPT_FREE_FROM[kiln.id]!) continue;
    const choice = loadFor(yard, kiln, mustPack);
    if (choice) kiln.load = packLoad(yard, kiln, choice);
  }
}

/** In the evening the day's firings end and the night's are lit. */
export function evening(yard: Yard, kilns: readonly Kiln[]): void {
  yard.book.from('18:10');
  for (const kiln of kilns) {
    const { load } = kiln;
    if (!load || load.ended) continue;
    if (load.lit) end(yard, kiln, load);
    else if (!byDay(load)) light(yard, load);
  }
}
