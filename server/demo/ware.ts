/** A piece or lot of the demo as it goes through the studio. */
import type { Layer, Money, Owner } from '../contract/studio/values.ts';
import type { Grade, Stage } from '../contract/trade.ts';
import type { Item } from './catalogue.ts';
import type { Chance } from './chance.ts';

/** What it will be glazed with, and how it will be bisque fired. */
export interface Plan {
  readonly zones: readonly { readonly zone: string; readonly layers: readonly Layer[] }[];
  /** Handle of the bisque schedule. */
  readonly bisque: string;
  /** Cone of its glaze firing; absent for what stays bisque. */
  readonly cone?: '6' | '04';
  /** Its grades and fault are set down beforehand (Confetti Speckle). */
  readonly luck?: { readonly seconds: number; readonly fault: string };
}

/** A firing that it went through, for the notebook. */
export interface WentThrough {
  readonly label: string;
  readonly kiln: string;
  readonly schedule: string;
  readonly day: string;
}

/** Its row of the notebook, shared by all that was one lot until it was graded. */
export interface Sheet {
  readonly mark: string | undefined;
  readonly made: string;
  count: number;
  bisque?: WentThrough;
  glaze?: WentThrough;
  faults: { readonly kind: string; readonly zone: string; count: number }[];
  grades?: Record<Grade, number>;
  repairs: string[];
  secondPrice?: number;
  left: { readonly how: string; readonly day: string; readonly count: number }[];
  note?: string | undefined;
}

export interface Ware {
  piece: string;
  count: number;
  readonly item: Item;
  readonly clay: string;
  readonly owner: Owner;
  plan: Plan;
  readonly chance: Chance;
  sheet: Sheet;
  stage: Stage;
  /** The day from which its next step can be. */
  due: string;
  /** It stands in a kiln. */
  packed: boolean;
  bisqued?: string;
  grade?: Grade;
  price?: Money;
  /** Of its grade as a second: the fault that cost the grade most. */
  fault?: string;
  /** The repair that has been decided or is done and waits for its firing. */
  repair?: { readonly method: string; readonly fault: string; readonly done: boolean };
  mended?: boolean;
  lustred?: boolean;
}

/** Room that it takes in a kiln. */
export const roomOf = (ware: Ware): number => ware.count * ware.item.room;

export const isOwn = (ware: Ware): boolean => ware.owner.kind === 'own' || ware.owner.kind === 'commission';

/** The glaze that shows most; undefined for bisque ware. */
export const glazeOf = (ware: Ware): string | undefined => ware.plan.zones[0]?.layers.at(-1)?.glaze;

export const gbp = (amount: number): Money => ({ amount, currency: 'GBP' });

/** A second costs a little over half, to the half pound. */
export const secondPrice = (price: number): number => Math.round((price * 0.55) / 50) * 50;
