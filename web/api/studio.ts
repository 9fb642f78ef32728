/** What the studio's own reports answer with, as far as the page reads it. */
import type { Firing, Photo, Portion } from '../../server/contract/studio/state.ts';
import type { Layer } from '../../server/contract/studio/values.ts';
import type { WaitingRow } from '../../server/contract/telling.ts';
import type { FiringRole, Grade, Stage } from '../../server/contract/trade.ts';

/** A person's name, which the host fills in; null where it has been erased. */
export type NameCell = string | { readonly name?: string | null } | null;

/** `studio/ware` */
export interface WareRow {
  readonly piece: string;
  readonly mark: string | null;
  readonly count: number;
  readonly form: string | null;
  readonly clayName: string | null;
  readonly owner: string;
  readonly ownerName: NameCell;
  readonly stage: Stage;
  readonly glazeNames: readonly string[];
  readonly grade: Grade | null;
  readonly inFiring: string | null;
  readonly changedAt: string;
}

export interface Paged {
  /** `after` of the next page; absent at the end. */
  readonly next?: number;
}

/** `studio/piece`: one entry of the story, newest first. */
export interface StoryLine {
  readonly seq: number;
  readonly name: string;
  readonly command: string;
  readonly happenedAt: string;
  readonly recordedAt: string;
  readonly sentence: string;
  /** Free text; null where there is none or it was erased. */
  readonly note: NoteCell;
  readonly struckBy: number | null;
  readonly struckWhy?: NoteCell;
  readonly firing?: string | null;
  /** Kind of the fault that was found. */
  readonly fault?: string | null;
}
export type NoteCell = string | { readonly text?: string | null } | null;

export interface NextMove {
  readonly command: string;
  /** Why it is not possible now. */
  readonly why?: string;
}

export type PieceRow = Omit<Portion, 'passages'> & {
  readonly clayName: string;
  readonly ownerName: NameCell;
  readonly glazeNames: Readonly<Record<string, string>>;
  readonly passages: readonly (Portion['passages'][number] & {
    readonly kilnName: string;
    readonly scheduleName: string;
  })[];
};

export interface PieceMore {
  readonly story: readonly StoryLine[];
  readonly next: readonly NextMove[];
  readonly siblings?: readonly {
    piece: string;
    count: number;
    mark: string | null;
    stage: Stage;
    grade: Grade | null;
  }[];
}

/** `studio/firings` */
export interface FiringRow {
  readonly firing: string;
  readonly label: string | null;
  readonly kiln: string | null;
  readonly kilnName: string | null;
  readonly scheduleName: string | null;
  readonly role: FiringRole | null;
  readonly state: Firing['state'];
  readonly pieces: number;
  readonly packedAt: string | null;
  readonly litAt: string | null;
  readonly endedAt: string | null;
  readonly drawnAt: string | null;
}

/** `studio/firing`: what stands, or stood, at one place. */
export interface PlaceRow {
  readonly piece: string;
  readonly mark: string | null;
  readonly form: string | null;
  readonly count: number;
  readonly stage: Stage;
  readonly shelf: number | null;
  readonly position: string | null;
  readonly furniture: readonly string[];
  readonly clayName: string | null;
  readonly glazings: readonly {
    readonly zone: string | null;
    readonly layers: readonly (Layer & { readonly name: string })[];
  }[];
  readonly ownerName: NameCell;
  readonly grade: Grade | null;
  readonly faults: readonly { readonly kind: string; readonly zone: string | null; readonly count: number }[];
  readonly drawn: boolean;
  readonly before: {
    readonly faults: readonly { readonly kind: string }[];
    readonly repairs: readonly string[];
  };
  readonly latest: boolean;
  /** The firing before this one. */
  readonly lastTime: {
    readonly firing: string;
    readonly label: string;
    readonly role: FiringRole;
    readonly at: string;
    readonly grade: Grade | null;
    readonly faults: readonly { readonly kind: string; readonly zone: string | null }[];
    readonly repairs: readonly string[];
  } | null;
  readonly owner: string;
  readonly size: Portion['size'] | null;
  /** The newest last. */
  readonly photos: readonly Photo[];
  readonly packedAt: string;
}

export interface KilnFacts {
  readonly shape?: 'round' | 'oval' | 'many-sided' | 'rectangular';
  /** Inside, in mm. */
  readonly width?: number;
  readonly depth?: number;
  readonly height?: number;
  readonly shelves?: number;
}

export interface FiringMore {
  readonly kiln?: KilnFacts | null;
  readonly firing:
    | (Omit<Firing, 'places'> & { readonly kilnName: string; readonly scheduleName: string | null })
    | null;
  readonly graded?: Readonly<Record<Grade, number>>;
  readonly pieces?: number;
  readonly story: readonly StoryLine[];
}

/** `studio/materials` */
export type MaterialKind = 'clay' | 'glaze' | 'schedule' | 'kiln';
export type WordKind = 'fault' | 'repair' | 'zone';

export interface MaterialRow {
  readonly kind: MaterialKind;
  readonly id: string;
  readonly name: string;
  readonly version: number;
  readonly facts: Readonly<Record<string, unknown>>;
  readonly batches: readonly { readonly batch: string; readonly at: string }[];
  readonly photos: readonly Photo[];
}

export interface SettingsSaid {
  readonly studio: string;
  readonly zone: string;
  readonly currency: string;
  readonly yearStart: string;
}

export interface MaterialsMore {
  readonly words: Readonly<
    Record<WordKind, readonly { readonly id: string; readonly name: string; readonly own: boolean }[]>
  >;
  readonly settings: SettingsSaid;
}

/** `studio/people` */
export interface PersonRow {
  readonly person: string;
  readonly name: NameCell;
  readonly forgotten: boolean;
  readonly pieces: number;
  readonly roles: string;
  readonly ware: string;
}

/** A line of Today, from any plugin; its shape is the contract's. */
export type WaitingLine = Omit<WaitingRow, 'person'> & { readonly person?: NameCell };

/** `/api/waiting` */
export interface WaitingTold {
  readonly told: readonly {
    readonly plugin: string;
    readonly rows: readonly WaitingLine[];
    readonly more?: {
      readonly standing?: Readonly<Partial<Record<Stage, number>>>;
      /** How many of a heading are not listed. */
      readonly unlisted?: Readonly<Record<string, number>>;
    };
  }[];
  readonly failed: readonly { readonly plugin: string; readonly sentence: string }[];
}

export const nameText = (cell: NameCell | undefined): string | null =>
  typeof cell === 'string' ? cell : (cell?.name ?? null);

export const noteText = (cell: NoteCell | undefined): string | null =>
  typeof cell === 'string' ? cell : (cell?.text ?? null);
