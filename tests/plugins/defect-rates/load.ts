/** Whole firings told in a few words: what was in them and what came out. */
import { done, type Happening } from '../../support/given.ts';

export interface LotIn {
  readonly count: number;
  /** Of the count. */
  readonly seconds?: number;
  readonly wasters?: number;
  /** Left ungraded when true. */
  readonly waits?: boolean;
  /** Zone: first layer > second layer. */
  readonly glazes?: Readonly<Record<string, string>>;
  readonly coats?: number;
  readonly method?: string;
  readonly clay?: string;
  readonly shelf?: number;
  readonly owner?: object;
  readonly fault?: string;
  readonly faulty?: number;
  /** Pence as a first and as a second. */
  readonly prices?: readonly [first: number, second: number];
  readonly currency?: string;
}

export interface Load {
  readonly firing: string;
  readonly day: string;
  readonly schedule?: string;
  readonly bisque?: string;
  readonly kiln?: string;
  readonly lots: readonly LotIn[];
}

export const lotId = (firing: string, n: number): string => `tiles-of-${firing.toLowerCase()}-${n}`;

export const storesOn = (day: string): readonly Happening[] => [
  ...['Fell White', 'Otterfold Buff'].map((name) => done(day, 'clay.add', { name })),
  ...['Marram Green', 'Cuttle White', 'Samphire Matt', 'Quicksilver Run'].map((name) =>
    done(day, 'glaze.add', { name }),
  ),
  ...['Big Round', 'Little Square'].map((name) => done(day, 'kiln.add', { name })),
  ...['Overnight Bisque 06', 'Daytime Bisque 06', 'Glaze 6 Plain', 'Glaze 6 Soak'].map((name) =>
    done(day, 'schedule.write', { name }),
  ),
];
export const stores = storesOn('2026-01-01');

const passed = (load: Load, role: 'bisque' | 'glaze', day: string): Happening[] => {
  const firing = role === 'bisque' ? `B-${load.firing}` : load.firing;
  const schedule =
    role === 'bisque' ? (load.bisque ?? 'overnight-bisque-06') : (load.schedule ?? 'glaze-6-plain');
  return [
    done(day, 'firing.pack', {
      firing,
      label: firing,
      kiln: load.kiln ?? 'big-round',
      schedule,
      role,
      places: load.lots.map(({ shelf }, n) => ({
        piece: lotId(load.firing, n),
        ...(shelf && role === 'glaze' ? { shelf } : {}),
      })),
    }),
    done(day, 'firing.light', { firing }),
    done(day, 'firing.end', { firing }),
    done(day, 'firing.draw', { firing }),
  ];
};

const glazed = (piece: string, day: string, lot: LotIn): Happening[] =>
  Object.entries(lot.glazes ?? { outside: 'marram-green' }).map(([zone, layers]) =>
    done(day, 'glaze.apply', {
      piece,
      zone,
      layers: layers
        .split(' > ')
        .map((it) => ({ glaze: it, coats: lot.coats ?? 1, ...(lot.method ? { method: lot.method } : {}) })),
    }),
  );

function judged(piece: string, day: string, lot: LotIn): Happening[] {
  const { count, seconds = 0, wasters = 0, fault, faulty = seconds + wasters } = lot;
  return [
    ...(fault && faulty > 0 ? [done(day, 'fault.find', { piece, kind: fault, count: faulty })] : []),
    ...(lot.waits
      ? []
      : [
          done(day, 'piece.grade', {
            piece,
            first: count - seconds - wasters,
            second: seconds,
            waster: wasters,
          }),
        ]),
  ];
}

/** From wet clay to the grade, all on one day. */
export function fire(load: Load): Happening[] {
  const { day } = load;
  const each = (tell: (piece: string, lot: LotIn) => Happening[]) =>
    load.lots.flatMap((lot, n) => tell(lotId(load.firing, n), lot));
  return [
    ...each((piece, { count, clay = 'fell-white', owner, prices, currency = 'GBP' }) => [
      done(day, 'piece.begin', {
        piece,
        count,
        form: 'tile',
        clay,
        ...(owner ? { owner } : {}),
        ...(prices
          ? { price: { amount: prices[0], currency }, secondPrice: { amount: prices[1], currency } }
          : {}),
      }),
    ]),
    ...passed(load, 'bisque', day),
    ...each((piece, lot) => glazed(piece, day, lot)),
    ...passed(load, 'glaze', day),
    ...each((piece, lot) => judged(piece, day, lot)),
  ];
}

/** The nth day of 2026 as 'YYYY-MM-DD', from 0. */
export const dayNumber = (n: number): string => new Date(Date.UTC(2026, 0, 2 + n)).toISOString().slice(0, 10);
