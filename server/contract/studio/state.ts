/** What the studio's streams fold into. Plugins that need 'studio' project these states. */
import type { StreamRef } from '../streams.ts';
import type { TextRef } from '../text.ts';
import type { FiringRole, Grade, Stage } from '../trade.ts';
import type { StudioData } from './events.ts';
import type { Layer, Money, Owner, Place } from './values.ts';

/** Layers on a zone, lowest first, as they stand when the piece goes into the kiln. */
export interface Glazing {
  readonly seq: number;
  readonly zone?: string;
  readonly layers: readonly Layer[];
  readonly at: string;
}

/** A picture, and what it shows. */
export interface Photo {
  readonly seq: number;
  readonly sha256: string;
  readonly at: string;
  readonly width?: number;
  readonly height?: number;
  readonly fault?: string;
  readonly zone?: string;
  readonly repair?: string;
  readonly shows?: 'before' | 'after';
}

/** One passage of a piece through a kiln. */
export interface Passage {
  readonly seq: number;
  readonly firing: string;
  readonly label?: string;
  readonly kiln: string;
  readonly schedule?: string;
  readonly role: FiringRole;
  readonly shelf?: number;
  readonly position?: string;
  readonly furniture?: readonly string[];
  readonly state: 'packed' | 'lit' | 'ended' | 'drawn' | 'abandoned';
  /** When it was packed, lit, ended. */
  readonly packedAt: string;
  readonly litAt?: string;
  readonly endedAt?: string;
  /** Layers on the piece when it went in. */
  readonly glazings: readonly Glazing[];
}

export interface FoundFault {
  readonly seq: number;
  readonly kind: string;
  readonly zone?: string;
  readonly count: number;
  readonly severity?: string;
  readonly size?: number;
  readonly firing?: string;
  readonly at: string;
}

export interface Repair {
  readonly seq: number;
  readonly method: string;
  readonly fault?: string;
  readonly state: 'decided' | 'done';
  readonly at: string;
  /** The grade that the first grading after it gave. */
  readonly after?: Grade;
}

export interface Grading {
  readonly seq: number;
  readonly grade: Grade;
  /** The firing that it judges; absent when none was known. */
  readonly firing?: string;
  readonly at: string;
}

/** A piece, or a lot of pieces alike that still go together. */
export interface Portion {
  readonly piece: string;
  readonly mark?: string;
  readonly count: number;
  readonly stage: Stage;
  readonly form?: string;
  readonly clay?: string;
  readonly owner: Owner;
  readonly maker?: string;
  readonly how?: string;
  readonly size?: StudioData<'piece.begun'>['size'];
  readonly begunAt: string;
  /** Day or moment of the latest happening. */
  readonly changedAt: string;
  /** Seq of its latest entry: newest first in lists. */
  readonly changedSeq: number;
  readonly glazings: readonly Glazing[];
  readonly passages: readonly Passage[];
  /** The firing it is packed in or not yet drawn from. */
  readonly inFiring?: string;
  readonly faults: readonly FoundFault[];
  readonly repairs: readonly Repair[];
  /** All gradings, the latest last. */
  readonly gradings: readonly Grading[];
  readonly price?: Money;
  readonly secondPrice?: Money;
  readonly left?: {
    readonly how: string;
    readonly to?: string;
    readonly price?: Money;
    readonly at: string;
    readonly stage: Stage;
  };
  /** Seq of the grading after which it was said that nothing is mended, and after which its owner was told. */
  readonly settled?: number;
  readonly told?: number;
  readonly notes: readonly { readonly seq: number; readonly note: TextRef; readonly at: string }[];
  readonly photos: readonly Photo[];
  /** The piece it was split from. */
  readonly from?: string;
}

/** State of a `piece:` stream: everything begun together, split or not. */
export interface Lot {
  readonly lot: string;
  /** The first is the one begun; parts follow as they were split off. */
  readonly portions: readonly Portion[];
}

/** State of a `firing:` stream. */
export interface Firing {
  readonly firing: string;
  readonly label?: string;
  readonly kiln?: string;
  readonly schedule?: string;
  readonly role?: FiringRole;
  readonly state: 'none' | 'packed' | 'lit' | 'ended' | 'drawn' | 'abandoned';
  readonly places: readonly Place[];
  readonly packedAt?: string;
  readonly litAt?: string;
  readonly endedAt?: string;
  readonly drawnAt?: string;
  readonly top?: number;
  readonly cones?: StudioData<'firing.drawn'>['cones'];
  readonly readings: readonly (readonly [number, number])[];
  readonly photos: readonly Photo[];
  readonly changedSeq: number;
}

/** State of a `clay:`, `glaze:`, `schedule:` or `kiln:` stream; `facts` are the newest. */
export interface Material<Facts = { readonly name: string }> {
  readonly id: string;
  readonly facts?: Facts;
  readonly version: number;
  /** When each version was written down, the first one first. */
  readonly written: readonly string[];
  readonly batches: readonly { readonly batch: string; readonly at: string }[];
  readonly photos: readonly Photo[];
}

/** State of `studio:words`: the user's own faults, repairs and zones. */
export type Words = Readonly<Record<'fault' | 'repair' | 'zone', Readonly<Record<string, string>>>>;

/** State of a `person:` stream. */
export interface Person {
  readonly person: string;
  readonly name?: TextRef;
  readonly forgotten: boolean;
}

/** For plugins that read the studio's streams when they decide. */
export const lotStream: StreamRef<Lot> = { prefix: 'piece', initial: (lot) => ({ lot, portions: [] }) };
export const personStream: StreamRef<Person> = {
  prefix: 'person',
  initial: (person) => ({ person, forgotten: false }),
};
