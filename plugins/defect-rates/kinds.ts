/** The groups that rates are given for: under which keys a unit counts, and how the keys are called. */
import type { Glazing, Portion } from '../../server/contract/studio/state.ts';
import type { Unit } from './unit.ts';

export type NameTable = 'glaze_names' | 'clay_names' | 'schedule_names' | 'kiln_names';
export type Names = Readonly<Record<NameTable, (id: string) => string>>;

export interface Kind {
  readonly noun: string;
  /** The row that stands out, in the middle of a sentence. */
  readonly nouns: string;
  /** Keys under which the unit's pieces count; none where it is not known. */
  readonly keys: (portion: Portion, unit: Unit) => readonly string[];
  readonly label: (key: string, names: Names) => string;
  /** Pieces of one bisque firing share its luck, so that is the firing that is counted. */
  readonly bisque?: boolean;
  /** A piece can count under several keys. */
  readonly several?: boolean;
  /** Said of inspected pieces that stand in no row. */
  readonly missing: string;
}

const glazesOf = (unit: Unit): string[] => [
  ...new Set(unit.passage.glazings.flatMap((g) => g.layers.map((l) => l.glaze))),
];

/** All that lies on each zone, lowest first. */
function stacks(glazings: readonly Glazing[]): Glazing['layers'][] {
  const zones = new Map<string, Glazing['layers'][number][]>();
  for (const { zone = '', layers } of glazings) zones.set(zone, [...(zones.get(zone) ?? []), ...layers]);
  return [...zones.values()];
}

function thickest(unit: Unit): string[] {
  const coats = stacks(unit.passage.glazings).map((layers) => layers.reduce((sum, l) => sum + l.coats, 0));
  return coats.length > 0 ? [String(Math.max(...coats))] : [];
}

const methodsOf = (unit: Unit): string[] => [
  ...new Set(unit.passage.glazings.flatMap((g) => g.layers.flatMap((l) => known(l.method)))),
];

const layersOf = (unit: Unit): string[] => [
  ...new Set(stacks(unit.passage.glazings).map((layers) => layers.map((l) => l.glaze).join('>'))),
];

/** What a unit's glazing comes to. */
export const partsOf = (unit: Unit) => ({
  glazes: glazesOf(unit),
  layers: layersOf(unit),
  methods: methodsOf(unit),
  coats: thickest(unit)[0],
});

const known = (key: string | undefined): string[] => (key === undefined ? [] : [key]);
const pairs = (left: readonly string[], right: string | undefined): string[] =>
  right === undefined ? [] : left.map((key) => `${key}|${right}`);

const named = (table: NameTable) => (key: string, names: Names) => names[table](key);
const pairNamed = (joint: string, right: NameTable) => (key: string, names: Names) => {
  const [glaze, other] = key.split('|') as [string, string];
  return `${names.glaze_names(glaze)} ${joint} ${names[right](other)}`;
};

const schedule = (part: Pick<Kind, 'keys' | 'bisque'>): Kind => ({
  noun: 'schedule',
  nouns: 'schedules',
  label: named('schedule_names'),
  missing: 'no schedule noted',
  ...part,
});
const kiln = (part: Pick<Kind, 'keys' | 'bisque'>): Kind => ({
  noun: 'kiln',
  nouns: 'kilns',
  label: named('kiln_names'),
  missing: 'no kiln noted',
  ...part,
});
const glazeOnSchedule = (part: Pick<Kind, 'keys' | 'bisque'>): Kind => ({
  noun: 'glaze on a schedule',
  nouns: 'glazes on their schedules',
  label: pairNamed('on', 'schedule_names'),
  several: true,
  missing: 'no glaze or no schedule noted',
  ...part,
});

export const KINDS = {
  glaze: {
    noun: 'glaze',
    nouns: 'glazes',
    keys: (_, unit) => glazesOf(unit),
    label: named('glaze_names'),
    several: true,
    missing: 'no glaze noted',
  },
  clay: {
    noun: 'clay',
    nouns: 'clays',
    keys: ({ clay }) => known(clay),
    label: named('clay_names'),
    missing: 'no clay noted',
  },
  schedule: schedule({ keys: (_, { passage }) => known(passage.schedule) }),
  'bisque-schedule': schedule({ keys: (_, { bisque }) => known(bisque?.schedule), bisque: true }),
  kiln: kiln({ keys: (_, { passage }) => [passage.kiln] }),
  'bisque-kiln': kiln({ keys: (_, { bisque }) => known(bisque?.kiln), bisque: true }),
  shelf: {
    noun: 'shelf',
    nouns: 'shelves',
    keys: (_, { passage }) => (passage.shelf === undefined ? [] : [`${passage.kiln}|${passage.shelf}`]),
    label: (key, names) => {
      const [kilnId, shelf] = key.split('|') as [string, string];
      return `${names.kiln_names(kilnId)}, shelf ${shelf}`;
    },
    missing: 'no shelf noted',
  },
  coats: {
    noun: 'number of coats',
    nouns: 'numbers of coats',
    keys: (_, unit) => thickest(unit),
    label: (key) => (key === '1' ? '1 coat' : `${key} coats`),
    missing: 'no glaze noted',
  },
  method: {
    noun: 'way of glazing',
    nouns: 'ways of glazing',
    keys: (_, unit) => methodsOf(unit),
    label: (key) => key,
    several: true,
    missing: 'no way of glazing noted',
  },
  layers: {
    noun: 'layering',
    nouns: 'layerings',
    keys: (_, unit) => layersOf(unit),
    label: (key, names) => key.split('>').map(names.glaze_names).join(' > '),
    several: true,
    missing: 'no glaze noted',
  },
  'glaze-clay': {
    noun: 'glaze on a clay',
    nouns: 'glazes on their clays',
    keys: ({ clay }, unit) => pairs(glazesOf(unit), clay),
    label: pairNamed('on', 'clay_names'),
    several: true,
    missing: 'no glaze or no clay noted',
  },
  'glaze-schedule': glazeOnSchedule({ keys: (_, unit) => pairs(glazesOf(unit), unit.passage.schedule) }),
  'glaze-bisque-schedule': glazeOnSchedule({
    keys: (_, unit) => pairs(glazesOf(unit), unit.bisque?.schedule),
    bisque: true,
  }),
} as const satisfies Record<string, Kind>;

export type KindName = keyof typeof KINDS;

/** Clay, bisque schedule and glaze schedule of a unit: what a glaze is compared within. */
export const stratumOf = ({ clay }: Portion, { passage, bisque }: Unit): string =>
  [clay ?? '', bisque?.schedule ?? '', passage.schedule ?? ''].join('|');

export const glazesOn = glazesOf;
