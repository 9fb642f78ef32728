/** What Hollin Yard posts, what it packs it in, and what the post asks for it. All invented, prices too. */

export interface ShopItem {
  readonly item: string;
  readonly name: string;
  readonly kind: 'template' | 'stamps';
  /** Pence. */
  readonly price: number;
  /** How often it is asked for, beside the others. */
  readonly wanted: number;
  readonly leadDays: number;
  readonly run: number;
  readonly facts: Readonly<Record<string, unknown>>;
}

const template = (
  name: string,
  price: number,
  wanted: number,
  sheets: number,
  folded: readonly number[],
): ShopItem => ({
  item: name.toLowerCase().replaceAll(' ', '-'),
  name,
  kind: 'template',
  price,
  wanted,
  leadDays: 1,
  run: 20,
  facts: {
    weight: 28 * sheets + 12,
    size: { length: folded[0], width: folded[1], thickness: folded[2] },
    sheets,
    content: 'Printed template for potters',
    hs: '4911.99',
    origin: 'GB',
    runOf: 10,
  },
});

const stamps = (
  name: string,
  price: number,
  wanted: number,
  weight: number,
  size: readonly number[],
): ShopItem => ({
  item: name
    .toLowerCase()
    .replace(/ \(\d+\)/, '')
    .replaceAll(' ', '-'),
  name: name.replace(/ \(\d+\)/, ''),
  kind: 'stamps',
  price,
  wanted,
  leadDays: 18,
  run: 14,
  facts: {
    weight,
    size: { length: size[0], width: size[1], thickness: size[2] },
    content: 'Texture stamps of fired clay',
    hs: '6914.90',
    origin: 'GB',
    leadDays: 18,
  },
});

export const ITEMS: readonly ShopItem[] = [
  template('House Lantern template', 850, 34, 1, [300, 215, 3]),
  template('Faceted Jug template', 650, 20, 3, [230, 160, 4]),
  template('Wall Pocket template', 550, 12, 2, [230, 160, 3]),
  stamps('Hedgerow stamp set (6)', 2200, 16, 190, [160, 110, 22]),
  stamps('Shoreline stamp set (8)', 2600, 11, 240, [170, 120, 22]),
  stamps('Letterform stamp set (26)', 5800, 5, 620, [260, 180, 28]),
];

export const PACKAGINGS = [
  { id: 'card-envelope', name: 'Card envelope', weight: 45 },
  { id: 'small-box', name: 'Small box', weight: 85, size: { length: 320, width: 230, thickness: 60 } },
] as const;

/** Days in the post: median, and how much it varies (of the logarithm); share that is lost. */
export interface Place {
  readonly country: string;
  readonly zone: 'home' | 'europe' | 'world';
  readonly days: number;
  readonly spread: number;
  readonly lost: number;
  /** How many buyers are there, beside the others. */
  readonly buyers: number;
}

const place = (
  country: string,
  zone: Place['zone'],
  buyers: number,
  days: number,
  spread = 0.3,
  lost = 0.006,
): Place => ({
  country,
  zone,
  buyers,
  days,
  spread,
  lost,
});

export const PLACES: readonly Place[] = [
  place('GB', 'home', 34, 2.2, 0.35, 0.003),
  place('US', 'world', 20, 9),
  place('DE', 'europe', 9, 5.5),
  place('FR', 'europe', 6, 6),
  place('JP', 'world', 6, 12),
  place('IS', 'europe', 3, 8),
  place('GR', 'europe', 4, 11, 0.4),
  place('CZ', 'europe', 3, 7),
  place('IN', 'world', 4, 19, 0.5, 0.06),
  place('KR', 'world', 3, 11),
  place('IL', 'world', 2, 15, 0.45),
  place('GE', 'world', 2, 16, 0.4),
  place('NZ', 'world', 4, 15),
];

const money = (amount: number) => ({ amount, currency: 'GBP' });
const steps = (...pairs: readonly (readonly [number, number])[]) =>
  pairs.map(([upTo, price]) => ({ upTo, price: money(price) }));

const service = (
  id: string,
  name: string,
  zone: string,
  tracked: boolean,
  prices: ReturnType<typeof steps>,
  loss?: number,
) => ({
  id,
  name,
  zone,
  formats: ['P', 'G', 'E', 'parcel'],
  tracked,
  steps: prices,
  ...(loss ? { compensation: money(loss) } : {}),
});

/** An invented post with invented prices; it became dearer after a year. */
export const tariff = (from: string, dearer: number) => {
  const at = (...pairs: readonly (readonly [number, number])[]) =>
    steps(...pairs.map(([upTo, price]) => [upTo, Math.round(price * dearer)] as const));
  return {
    tariff: 'hollin-post',
    name: 'Hollin Post (made up)',
    from,
    zones: [
      { id: 'home', name: 'Home', countries: ['GB'] },
      {
        id: 'europe',
        name: 'Europe',
        countries: PLACES.filter((one) => one.zone === 'europe').map((one) => one.country),
      },
      { id: 'world', name: 'World', countries: 'rest' },
    ],
    services: [
      service('letter-home', 'Letter', 'home', false, at([100, 130], [500, 240], [2000, 390])),
      service('tracked-home', 'Tracked letter', 'home', true, at([500, 380], [2000, 520]), 5000),
      service('letter-europe', 'Letter Europe', 'europe', false, at([100, 320], [500, 590], [2000, 980])),
      service('tracked-europe', 'Tracked letter Europe', 'europe', true, at([500, 890], [2000, 1290]), 5000),
      service('letter-world', 'Letter World', 'world', false, at([100, 390], [500, 780], [2000, 1490])),
      service('tracked-world', 'Tracked letter World', 'world', true, at([500, 1080], [2000, 1790]), 5000),
    ],
  };
};

/** What she asks for postage, pence. */
export const POSTAGE: Readonly<Record<Place['zone'], number>> = { home: 390, europe: 890, world: 1250 };
