/** Hollin Yard in small, recorded through the host as a potter would: for browser tests and for looking at. */
import type { Host, Order } from '../../server/host/host.ts';
import { seeded } from './seeded.ts';

export interface Yard {
  /** Piece ids by a short name. */
  readonly pieces: Readonly<Record<string, string>>;
  readonly firings: Readonly<Record<string, string>>;
}

const uuid = (n: number): string =>
  `0198${n.toString(16).padStart(4, '0')}-0000-7000-8000-${n.toString(16).padStart(12, '0')}`;

type Say = (happenedAt: string, command: string, input: object) => void;

function materials(say: Say): void {
  const on = '2025-01-02';
  say(on, 'studio.set', {
    studio: 'Hollin Yard Pottery',
    zone: 'Europe/London',
    currency: 'GBP',
    yearStart: '01-01',
  });
  say(on, 'clay.add', { name: 'Fell White', coneLow: '5', coneHigh: '8', shrinkage: 0.12 });
  say(on, 'clay.add', { name: 'Otterfold Buff', coneLow: '5', coneHigh: '7' });
  say(on, 'clay.add', { name: 'Grit House' });
  for (const name of [
    'Marram Green',
    'Cuttle White',
    'Gannet Grey',
    'Driftlight Blue',
    'Bracken Amber',
    'Samphire Matt',
  ])
    say(on, 'glaze.add', { name, cone: '6' });
  say(on, 'glaze.add', { name: 'Quicksilver Run', cone: '6', costly: true, fluid: true });
  say(on, 'schedule.write', { name: 'Overnight Bisque 06', role: 'bisque', cone: '06' });
  say(on, 'schedule.write', { name: 'Glaze 6 Plain', role: 'glaze', cone: '6' });
  say(on, 'schedule.write', { name: 'Glaze 6 Slow Cool', role: 'glaze', cone: '6' });
  say(on, 'kiln.add', {
    name: 'Big Round',
    shape: 'many-sided',
    width: 560,
    depth: 560,
    height: 690,
    shelves: 6,
    power: 9.6,
  });
  say(on, 'kiln.add', {
    name: 'Little Square',
    shape: 'rectangular',
    width: 300,
    depth: 300,
    height: 340,
    shelves: 3,
    power: 3.2,
  });
  say(on, 'person.add', { person: 'p-iris', name: 'Iris Quillfeather' });
  say(on, 'person.add', { person: 'p-bo', name: 'Bo Tandemark' });
}

const FORMS = [
  'beaker',
  'cereal bowl',
  'faceted jug',
  'wall planter',
  'side plate',
  'tile',
  'lidded jar',
] as const;
const GLAZES = [
  'marram-green',
  'cuttle-white',
  'gannet-grey',
  'driftlight-blue',
  'bracken-amber',
  'quicksilver-run',
] as const;

/** One month's making: lots begun, bisque fired, glazed, glaze fired and graded, with faults where a fluid glaze was used. */
function month(say: Say, of: string, n: number, random: () => number): void {
  const lots = [0, 1, 2].map((k) => ({
    piece: uuid(n * 10 + k),
    count: 3 + Math.floor(random() * 8),
    glaze: GLAZES[Math.floor(random() * GLAZES.length)]!,
  }));
  for (const [k, lot] of lots.entries())
    say(`${of}-02`, 'piece.begin', {
      piece: lot.piece,
      count: lot.count,
      form: FORMS[(n + k) % FORMS.length],
      clay: k === 2 ? 'otterfold-buff' : 'fell-white',
      how: 'thrown',
      price: { amount: 1800 + 400 * k, currency: 'GBP' },
      secondPrice: { amount: 900 + 200 * k, currency: 'GBP' },
    });
  const places = lots.map((lot, k) => ({ piece: lot.piece, shelf: k + 1 }));
  const fire = (firing: string, label: string, kiln: string, schedule: string, role: string, day: string) => {
    say(day, 'firing.pack', { firing, label, kiln, schedule, role, places });
    say(day, 'firing.light', { firing });
    say(day, 'firing.end', { firing, top: role === 'bisque' ? 998 : 1222 });
  };
  fire(`b${n}`, `Bisque ${n}`, 'big-round', 'overnight-bisque-06', 'bisque', `${of}-10`);
  say(`${of}-11`, 'firing.draw', { firing: `b${n}` });
  for (const lot of lots) {
    say(`${of}-14`, 'glaze.apply', {
      piece: lot.piece,
      zone: 'inside',
      layers: [{ glaze: 'cuttle-white', coats: 1, method: 'poured' }],
    });
    say(`${of}-14`, 'glaze.apply', {
      piece: lot.piece,
      zone: 'outside',
      layers: [{ glaze: lot.glaze, coats: 2, method: 'dipped' }],
    });
  }
  fire(
    `g${n}`,
    `Glaze ${n}`,
    n % 3 === 0 ? 'little-square' : 'big-round',
    n % 2 ? 'glaze-6-plain' : 'glaze-6-slow-cool',
    'glaze',
    `${of}-20`,
  );
  for (const lot of lots) {
    const bad = lot.glaze === 'quicksilver-run' ? Math.ceil(lot.count * 0.4) : random() < 0.3 ? 1 : 0;
    const waster = bad > 2 ? 1 : 0;
    if (bad > 0)
      say(`${of}-21`, 'fault.find', {
        piece: lot.piece,
        firing: `g${n}`,
        kind: lot.glaze === 'quicksilver-run' ? 'runs' : 'pinholes',
        zone: lot.glaze === 'quicksilver-run' ? 'foot' : 'inside',
        count: bad,
      });
    say(`${of}-21`, 'piece.grade', {
      piece: lot.piece,
      first: lot.count - bad,
      second: bad - waster,
      waster,
    });
  }
  say(`${of}-21`, 'firing.draw', {
    firing: `g${n}`,
    cones: [
      { shelf: 1, cone: '6', bend: 'down' },
      { shelf: 3, cone: '6', bend: 'leaning' },
    ],
  });
}

/** What stands about in the studio now, at every stage. */
function present(say: Say): Yard {
  const pieces = {
    jug: uuid(901),
    planters: uuid(902),
    beakers: uuid(903),
    bowls: uuid(904),
    lamp: uuid(905),
    plates: uuid(906),
    student: uuid(907),
  };
  const firings = { toDraw: uuid(951), toLight: uuid(952) };
  const begin = (piece: string, count: number, form: string, more: object = {}) =>
    say('2026-11-03', 'piece.begin', { piece, count, form, clay: 'fell-white', how: 'thrown', ...more });
  begin(pieces.jug, 1, 'faceted jug', {
    size: { width: 110, height: 190, measured: 'wet' },
    how: 'slab-built',
  });
  begin(pieces.planters, 6, 'wall planter', { clay: 'grit-house' });
  begin(pieces.beakers, 8, 'beaker');
  begin(pieces.bowls, 5, 'cereal bowl');
  begin(pieces.lamp, 1, 'altar lamp', { owner: { kind: 'commission', person: 'p-iris' } });
  begin(pieces.plates, 4, 'side plate');
  begin(pieces.student, 2, 'pinch pot', { owner: { kind: 'student', person: 'p-bo' } });
  say('2026-11-06', 'piece.move-on', { piece: pieces.planters, stage: 'bone-dry' });
  say('2026-11-06', 'piece.move-on', { piece: pieces.student, stage: 'leather-hard' });
  const bisqued = [pieces.jug, pieces.beakers, pieces.bowls, pieces.lamp, pieces.plates];
  say('2026-11-08', 'firing.pack', {
    firing: 'b-now',
    label: 'Bisque, Martinmas',
    kiln: 'big-round',
    schedule: 'overnight-bisque-06',
    role: 'bisque',
    places: bisqued.map((piece, n) => ({ piece, shelf: 1 + (n % 3) })),
  });
  say('2026-11-08', 'firing.light', { firing: 'b-now' });
  say('2026-11-09', 'firing.end', { firing: 'b-now', top: 1001 });
  say('2026-11-09', 'firing.draw', { firing: 'b-now' });
  say('2026-11-12', 'glaze.apply', {
    piece: pieces.jug,
    zone: 'inside',
    layers: [{ glaze: 'cuttle-white', coats: 1, method: 'poured' }],
  });
  say('2026-11-12', 'glaze.apply', {
    piece: pieces.jug,
    zone: 'outside',
    layers: [
      { glaze: 'marram-green', coats: 2, method: 'dipped' },
      { glaze: 'quicksilver-run', coats: 1, method: 'brushed' },
    ],
  });
  say('2026-11-12', 'glaze.apply', {
    piece: pieces.beakers,
    zone: 'outside',
    layers: [{ glaze: 'gannet-grey', coats: 2, method: 'dipped' }],
  });
  say('2026-11-12', 'glaze.apply', {
    piece: pieces.beakers,
    zone: 'inside',
    layers: [{ glaze: 'cuttle-white', coats: 1, method: 'poured' }],
  });
  say('2026-11-12', 'glaze.apply', {
    piece: pieces.lamp,
    zone: 'outside',
    layers: [{ glaze: 'bracken-amber', coats: 3, method: 'brushed' }],
  });
  say('2026-11-13', 'glaze.apply', {
    piece: pieces.plates,
    zone: 'inside',
    layers: [{ glaze: 'driftlight-blue', coats: 2, method: 'dipped' }],
  });
  say('2026-11-20', 'firing.pack', {
    firing: firings.toDraw,
    label: 'Glaze, late November',
    kiln: 'big-round',
    schedule: 'glaze-6-plain',
    role: 'glaze',
    places: [
      { piece: pieces.jug, shelf: 1, position: 'middle', furniture: ['catcher'] },
      { piece: pieces.beakers, shelf: 2, furniture: ['wash'] },
      { piece: pieces.lamp, shelf: 3 },
    ],
  });
  say('2026-11-20', 'firing.light', { firing: firings.toDraw });
  say('2026-11-21', 'firing.end', { firing: firings.toDraw, top: 1224 });
  say('2026-11-23', 'firing.pack', {
    firing: firings.toLight,
    label: 'Planters',
    kiln: 'little-square',
    schedule: 'overnight-bisque-06',
    role: 'bisque',
    places: [{ piece: pieces.planters, shelf: 1 }],
  });
  say('2026-11-24', 'piece.note', {
    piece: pieces.jug,
    note: 'Facets cut at leather-hard; spout thinned twice.',
  });
  return { pieces, firings };
}

/** Two years of making and what stands about now. Throws where anything is refused. */
export async function smallYard(host: Host, months = 20): Promise<Yard> {
  const orders: Order[] = [];
  const say: Say = (happenedAt, command, input) =>
    orders.push({
      id: uuid(5000 + orders.length),
      command,
      input,
      happenedAt,
      who: 'maker',
      device: 'bench',
    });
  materials(say);
  const random = seeded(7);
  for (let n = 0; n < months; n += 1) {
    const at = new Date(Date.UTC(2025, 2 + n, 1)).toISOString().slice(0, 7);
    month(say, at, n + 1, random);
  }
  const yard = present(say);
  for (const [n, outcome] of (await host.recordAll(orders)).entries())
    if (outcome.outcome === 'refused') throw new Error(`${orders[n]!.command}: ${outcome.refusal.sentence}`);
  return yard;
}
