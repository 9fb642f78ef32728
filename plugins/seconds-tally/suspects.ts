/**
 * Which kinds of fault can come from which causes. This is the only place that says so.
 * Common practice of the trade, no single source.
 */
import type { Glazing } from '../../server/contract/studio/state.ts';

/** Which of a piece's glazes a fault casts doubt on. */
type Glazes =
  /** Those of the zone it was seen on. */
  | 'zone'
  /** Those of that zone and of every zone that can run down onto it. */
  | 'zone-and-above'
  | 'all'
  | 'none';

export type Circumstance = 'clay' | 'bisque' | 'schedule' | 'firing';

interface Suspicion {
  readonly glazes: Glazes;
  /** What else may have done it. Background, plain bad luck, always may. */
  readonly also: readonly Circumstance[];
}

const ANY: readonly Circumstance[] = ['clay', 'bisque', 'schedule', 'firing'];

const TABLE: Readonly<Record<string, Suspicion>> = {
  pinholes: { glazes: 'zone', also: ANY },
  blisters: { glazes: 'zone', also: ANY },
  crawling: { glazes: 'zone', also: ANY },
  crazing: { glazes: 'zone', also: ANY },
  shivering: { glazes: 'zone', also: ANY },
  dry: { glazes: 'zone', also: ANY },
  'colour-off': { glazes: 'zone', also: ANY },
  'metal-scum': { glazes: 'zone', also: ANY },
  'stilt-marks': { glazes: 'zone', also: ANY },
  runs: { glazes: 'zone-and-above', also: ANY },
  stuck: { glazes: 'zone-and-above', also: ANY },
  crack: { glazes: 'none', also: ANY },
  warping: { glazes: 'none', also: ANY },
  bloating: { glazes: 'none', also: ANY },
  dunting: { glazes: 'none', also: ANY },
  broken: { glazes: 'none', also: ANY },
  specks: { glazes: 'none', also: ['firing'] },
};

/** A second with no fault noted, 'other', and the user's own faults: anything may have done it. */
const UNSAID: Suspicion = { glazes: 'all', also: ANY };

/** From top to foot: each zone with the zones whose glaze can run down onto it. */
const ABOVE: Readonly<Record<string, readonly string[]>> = {
  lid: [],
  rim: ['lid'],
  handle: ['rim', 'lid'],
  inside: ['rim', 'lid'],
  outside: ['handle', 'rim', 'lid'],
  detail: ['outside', 'handle', 'rim', 'lid'],
  base: ['detail', 'outside', 'handle', 'rim', 'lid'],
  foot: ['base', 'detail', 'outside', 'handle', 'rim', 'lid'],
};

export interface Located {
  readonly kind: string;
  readonly zone?: string;
}

export interface Suspects {
  /** Ids, sorted, each once. */
  readonly glazes: readonly string[];
  readonly also: readonly Circumstance[];
}

const of = (kind: string | undefined): Suspicion =>
  kind !== undefined && Object.hasOwn(TABLE, kind) ? TABLE[kind]! : UNSAID;

export const glazesOn = (glazings: readonly Glazing[]): string[] =>
  [...new Set(glazings.flatMap(({ layers }) => layers.map(({ glaze }) => glaze)))].sort();

/** A glaze without a zone covers the whole piece. */
const onZones = (glazings: readonly Glazing[], zones: readonly string[]): string[] =>
  glazesOn(glazings.filter(({ zone }) => zone === undefined || zones.includes(zone)));

/**
 * What may have given a piece this fault. Where a zone is named that carries no glaze, or a zone
 * of the user's own without one, all the piece's glazes are suspected: the zone may be wrong.
 */
export function suspectsOf(fault: Located | undefined, glazings: readonly Glazing[]): Suspects {
  const { glazes, also } = of(fault?.kind);
  if (glazes === 'none') return { glazes: [], also };
  const all = glazesOn(glazings);
  const zone = fault?.zone;
  if (glazes === 'all' || zone === undefined) return { glazes: all, also };
  const above = glazes === 'zone-and-above' ? (ABOVE[zone] ?? []) : [];
  const near = onZones(glazings, [zone, ...above]);
  return { glazes: near.length > 0 ? near : all, also };
}
