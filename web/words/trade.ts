/** The trade's ids as they read on the page. The user's own words come with their own names. */
import type { FiringRole, Grade, Stage } from '../../server/contract/trade.ts';

export const stageNames: Record<Stage, string> = {
  made: 'made',
  'leather-hard': 'leather-hard',
  'bone-dry': 'bone-dry',
  'bisque-fired': 'bisque fired',
  glazed: 'glazed',
  'glaze-fired': 'glaze fired',
  graded: 'graded',
  mending: 'mending',
  left: 'left',
};

export const gradeNames: Record<Grade, string> = { first: 'first', second: 'second', waster: 'waster' };

export const roleNames: Record<FiringRole, string> = {
  bisque: 'bisque',
  glaze: 'glaze',
  lustre: 'lustre',
  other: 'other',
};

export const faultNames: Record<string, string> = {
  pinholes: 'pinholes',
  blisters: 'blisters',
  crawling: 'crawling',
  crazing: 'crazing',
  shivering: 'shivering',
  runs: 'runs',
  stuck: 'stuck',
  'stilt-marks': 'stilt marks',
  crack: 'crack',
  dunting: 'dunting',
  bloating: 'bloating',
  warping: 'warping',
  dry: 'dry',
  'colour-off': 'colour off',
  specks: 'specks',
  'metal-scum': 'metal scum',
  broken: 'broken',
  other: 'other',
};

export const repairNames: Record<string, string> = {
  grind: 'grind',
  'fill-and-reglaze': 'fill and reglaze',
  'reglaze-over': 'glaze over',
  refire: 'refire',
  'refire-inverted': 'refire upside down',
  'cold-finish': 'cold finish',
  other: 'other',
};

export const zoneNames: Record<string, string> = {
  inside: 'inside',
  outside: 'outside',
  rim: 'rim',
  foot: 'foot',
  base: 'base',
  handle: 'handle',
  lid: 'lid',
  detail: 'detail',
};

export const methodNames: Record<string, string> = {
  brushed: 'brushed',
  dipped: 'dipped',
  poured: 'poured',
  sprayed: 'sprayed',
  trailed: 'trailed',
};

export const furnitureNames: Record<string, string> = {
  wash: 'kiln wash',
  catcher: 'catcher',
  stilt: 'stilt',
  wad: 'wads',
  bar: 'bars',
};

export const leavingNames: Record<string, string> = {
  sold: 'sold',
  collected: 'collected',
  posted: 'posted',
  given: 'given away',
  'broken-up': 'broken up',
  lost: 'lost',
};

export const ownerNames: Record<string, string> = {
  own: 'own stock',
  commission: 'commission',
  student: 'student',
  hire: 'fired for hire',
};

export const howNames: Record<string, string> = {
  thrown: 'thrown',
  'slab-built': 'slab-built',
  coiled: 'coiled',
  pressed: 'pressed',
  cast: 'cast',
};

/** An id by its name, or, for one without, the id with its hyphens opened. */
export const named = (names: Readonly<Record<string, string>>, id: string): string =>
  Object.hasOwn(names, id) ? names[id]! : id.replaceAll('-', ' ');
