/** A kiln of the demo, and the load that stands in it. */
import type { FiringRole } from '../contract/trade.ts';
import type { Chance } from './chance.ts';
import type { Ware } from './ware.ts';

export interface Placed {
  readonly ware: Ware;
  readonly shelf: number;
}

export interface Load {
  readonly firing: string;
  readonly label: string;
  readonly kiln: string;
  readonly schedule: string;
  readonly role: FiringRole;
  readonly placed: readonly Placed[];
  readonly chance: Chance;
  lit?: string;
  ended?: string;
  drawFrom?: string;
}

export interface Kiln {
  readonly id: string;
  readonly shelves: number;
  /** Where a beaker takes 1. */
  readonly room: number;
  readonly large?: boolean;
  /** Days from the end of a firing until it is cold and drawn. */
  readonly cools: number;
  readonly roles: readonly FiringRole[];
  load?: Load;
}
