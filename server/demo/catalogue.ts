/** What is made in the demo studio, and what each is sold for. */

export interface Item {
  readonly form: string;
  readonly how: 'thrown' | 'slab-built' | 'coiled' | 'pressed';
  readonly clays: readonly string[];
  /** Pieces in a lot, from and to. */
  readonly lot: readonly [number, number];
  /** Room in the kiln, where a beaker takes 1. */
  readonly room: number;
  /** Wet, mm. */
  readonly size: { readonly width: number; readonly height: number };
  /** Pence each. */
  readonly price: number;
  /** Zones that are glazed, the one that shows first; none for what is sold as bisque. */
  readonly zones: readonly string[];
}

const FELL = 'fell-white-stoneware';
const BUFF = 'otterfold-buff-stoneware';
const GRIT = 'grit-house-groggy-body';
const RED = 'red-lane-earthenware';

const thrown = (
  form: string,
  price: number,
  room: number,
  lot: readonly [number, number],
  width: number,
  height: number,
  zones: readonly string[] = ['outside', 'inside'],
): Item => ({
  form,
  how: 'thrown',
  clays: [FELL, FELL, BUFF],
  lot,
  room,
  size: { width, height },
  price,
  zones,
});

export const TABLEWARE: readonly Item[] = [
  thrown('beaker', 1_800, 1, [6, 11], 90, 120),
  thrown('mug', 2_400, 1.2, [6, 9], 95, 110, ['outside', 'inside', 'handle']),
  thrown('cereal bowl', 2_200, 1.6, [5, 8], 170, 75),
  thrown('side plate', 2_000, 1.3, [5, 8], 210, 25, ['inside']),
  thrown('dinner plate', 3_200, 2, [4, 8], 300, 30, ['inside']),
  thrown('cream jug', 2_600, 1.2, [4, 7], 90, 110),
  thrown('serving bowl', 4_800, 3, [3, 5], 280, 110),
];

export const PLANTER: Item = {
  form: 'wall planter',
  how: 'slab-built',
  clays: [BUFF, GRIT],
  lot: [3, 6],
  room: 2.4,
  size: { width: 190, height: 170 },
  price: 3_600,
  zones: ['outside'],
};

export const SINGLES: readonly Item[] = [
  { ...thrown('bottle vase', 6_800, 3, [1, 1], 140, 290, ['outside']) },
  { ...thrown('teapot', 8_500, 3, [1, 1], 190, 160, ['outside', 'inside']) },
  { ...thrown('lidded jar', 5_400, 2, [1, 1], 130, 170, ['outside', 'inside', 'lid']) },
  { ...thrown('moon jar', 9_500, 4, [1, 1], 240, 240, ['outside']), how: 'coiled' },
];

export const EARTHENWARE: Item = {
  ...thrown('dessert dish', 1_900, 1.4, [5, 8], 150, 50, ['inside', 'outside']),
  clays: [RED],
};

export const NUMBER_TILE: Item = {
  form: 'house-number tile',
  how: 'pressed',
  clays: [BUFF],
  lot: [8, 12],
  room: 0.8,
  size: { width: 125, height: 125 },
  price: 2_800,
  zones: ['outside'],
};

export const HEARTH_TILE: Item = {
  ...NUMBER_TILE,
  form: 'hearth tile',
  clays: [GRIT],
  lot: [22, 22],
  price: 1_450,
};

export const ALTAR_LAMP: Item = {
  form: 'altar lamp',
  how: 'slab-built',
  clays: [FELL],
  lot: [2, 2],
  room: 7,
  size: { width: 200, height: 310 },
  price: 32_000,
  zones: ['outside', 'lid'],
};

/** Sold as bisque, in sets. */
export const STAMPS: readonly Item[] = [
  ['Hedgerow stamp', 6, 450] as const,
  ['Shoreline stamp', 8, 450] as const,
  ['Letterform stamp', 26, 200] as const,
].map(([form, many, price]) => ({
  form,
  how: 'pressed',
  clays: [FELL],
  lot: [many, many],
  room: 0.15,
  size: { width: 35, height: 55 },
  price,
  zones: [],
}));

/** What students and neighbours make. */
export const OTHERS_FORMS = [
  'pinch pot',
  'mug',
  'bowl',
  'small dish',
  'candle holder',
  'bird feeder',
  'plate',
  'bud vase',
  'soap dish',
  'little house',
] as const;

export const othersItem = (form: string): Item => ({
  ...thrown(form, 0, 1.3, [1, 1], 120, 90, ['outside', 'inside']),
  how: 'slab-built',
});

/** How often a glaze is taken for own tableware. */
export const TASTE: Readonly<Record<string, number>> = {
  'marram-green': 17,
  'cuttle-white': 16,
  'gannet-grey': 12,
  'driftlight-blue': 14,
  'bracken-amber': 11,
  'samphire-matt': 13,
  'oyster-satin': 9,
  'nightjar-black': 8,
};
