/** What the shop's reports answer, as the page reads it. */
import type { LabelGrid } from '../../plugins/shop-orders/label-grid.ts';
import type { NameCell, NoteCell, StoryLine } from '../api/studio.ts';
import type { PaperRef } from './of-paper.ts';

export interface Money {
  readonly amount: number;
  readonly currency: string;
}

export interface TodayRow {
  readonly order: string;
  readonly key: string;
  readonly line: string;
  readonly item: string;
  readonly quantity: number;
  readonly promise: string;
  readonly state: 'pack' | 'short' | 'ask';
  readonly why: string;
  readonly country: string;
  readonly buyer: string;
  readonly late: boolean;
}
interface ItemSum {
  readonly item: string;
  readonly name: string;
}
export interface TodayMore {
  readonly batches: readonly (ItemSum & { readonly quantity: number; readonly orders: number })[];
  readonly make: readonly (ItemSum & { readonly missing: number })[];
  readonly buyers: readonly { readonly buyer: string; readonly orders: readonly string[] }[];
}

export interface TransitRow {
  readonly order: string;
  readonly key: string;
  readonly parcel: string;
  readonly number: string | null;
  readonly country: string;
  readonly posted: string;
  readonly days: number;
  readonly advice: string;
}

export interface Offer {
  readonly service: string;
  readonly name: string;
  readonly price: Money;
  readonly tracked: boolean;
}

export interface PackedRow {
  readonly parcel: string;
  readonly keys: readonly string[];
  readonly orders: string;
  readonly buyer: NameCell;
  readonly countryName: string;
  readonly promise: string;
  readonly offers: readonly Offer[];
  readonly behind: string;
}

export interface OrderLine {
  readonly line: string;
  readonly item: string;
  readonly name: string;
  readonly kind: string;
  readonly quantity: number;
  readonly open: number;
  readonly stock: number | null;
  readonly price: Money | null;
  readonly cancelled: boolean;
  readonly download: boolean;
  /** Whether there is something to hand out, and the paper that it comes from. */
  readonly file: boolean;
  readonly paper: PaperRef | null;
  /** The piece of the studio that it is. */
  readonly piece: string | null;
}

/** What a buyer may fetch, until when and how often. */
export interface Granted {
  readonly download: string;
  readonly line: string;
  readonly until: string;
  readonly most: number;
  readonly times: number;
  readonly withdrawn?: boolean;
}

export interface SentParcel {
  readonly parcel: string;
  readonly state: string;
  readonly packedAt: string;
  readonly postedAt?: string;
  readonly number?: string;
  readonly service?: string;
  readonly again: boolean;
}

export interface Order {
  readonly order: string;
  readonly number: string;
  readonly buyer: NameCell;
  readonly name: NoteCell;
  readonly email: NoteCell;
  readonly address: NoteCell;
  readonly postcode: NoteCell;
  readonly country: string;
  readonly countryName: string;
  readonly placed: string;
  readonly promise: string;
  readonly posted: string | null;
  readonly cancelled: string | null;
  readonly wants: { readonly tracked?: boolean; readonly compensation?: Money };
  readonly note: NoteCell;
  readonly postage: Money | null;
  readonly sums: readonly Money[];
  readonly refunds: readonly Money[];
  readonly lines: readonly OrderLine[];
  readonly parcels: readonly SentParcel[];
  readonly downloads: readonly Granted[];
  readonly pictures: readonly BuyersPicture[];
  readonly came: Came | null;
}

export type Allowed = 'keep' | 'show' | 'name';

export interface BuyersPicture {
  readonly seq: number;
  readonly at: string;
  /** Null in the earliest records, which kept it in another way. */
  readonly sha256: string | null;
  readonly type?: string;
  readonly bytes?: number;
  readonly width?: number;
  readonly height?: number;
  readonly piece: string | null;
  readonly allows: readonly Allowed[];
  readonly note: NoteCell;
}

export interface Came {
  readonly cancelled: boolean;
  readonly fields: readonly { readonly field: string; readonly was: NoteCell; readonly now: NoteCell }[];
  readonly postage: string | null;
  readonly postageWas: string | null;
  readonly linesWere: readonly { readonly name: string; readonly quantity: number }[];
  readonly lines: readonly { readonly name: string; readonly quantity: number }[] | null;
}

export interface OrderMore {
  readonly order: Order | null;
  readonly others: readonly { readonly order: string; readonly number: string }[];
  readonly story: readonly StoryLine[];
}

export interface Parcel {
  readonly parcel: string;
  readonly state: string;
  readonly country: string;
  readonly countryName: string;
  readonly packagingName: string | null;
  readonly weight?: number;
  readonly size?: { readonly length: number; readonly width: number; readonly thickness: number };
  readonly format?: string;
  readonly postedOn?: string;
  readonly service?: string;
  readonly number?: string;
  readonly cost?: Money;
  readonly contents: readonly {
    readonly order: string;
    readonly line: string;
    readonly name: string;
    readonly quantity: number;
  }[];
}

export interface ParcelMore {
  readonly parcel: Parcel | null;
  readonly orders: readonly {
    readonly order: string;
    readonly number: string;
    readonly name: NoteCell;
    readonly buyer: NameCell;
    readonly address: NoteCell;
    readonly postcode: NoteCell;
  }[];
  /** How it stands beside its like, while it is on its way. */
  readonly late: {
    readonly days: number;
    readonly asked: string | null;
    /** Left to come until this day. */
    readonly given: string | null;
    readonly lateBeyond: number | null;
    readonly like: string | null;
    readonly advice: string;
    readonly expected: number | null;
  } | null;
  readonly why: readonly string[];
  readonly offers: {
    readonly fit: readonly Offer[];
    readonly out: readonly { readonly name: string; readonly why: string }[];
  } | null;
  readonly story: readonly StoryLine[];
}

export interface ItemRow {
  readonly item: string;
  readonly name: string;
  readonly kind: string;
  readonly stock: number | null;
  readonly promised: number;
  readonly price: number | null;
  readonly currency: string | null;
  readonly paper: PaperRef | null;
  readonly behind: string;
}

export interface ItemFacts {
  readonly name: string;
  readonly kind: string;
  readonly weight?: number;
  readonly size?: { readonly length: number; readonly width: number; readonly thickness: number };
  readonly sheets?: number;
  readonly price?: Money;
  readonly content?: string;
  readonly hs?: string;
  readonly origin?: string;
  readonly leadDays?: number;
  readonly runOf?: number;
  readonly piece?: string;
  /** SHA-256 of its PDF, or the paper that it comes from. */
  readonly file?: string;
  readonly paper?: PaperRef;
  readonly licence?: string;
}

export interface ItemMore {
  readonly item: {
    readonly item: string;
    readonly facts: ItemFacts;
    readonly stock: number | null;
    readonly called?: string;
  } | null;
  readonly story: readonly StoryLine[];
}

export interface Packaging {
  readonly id: string;
  readonly name: string;
  readonly weight: number;
  readonly size?: { readonly length: number; readonly width: number; readonly thickness: number };
}

export interface Tariff {
  readonly tariff: string;
  readonly name: string;
  readonly from: string;
  readonly zones: readonly {
    readonly id: string;
    readonly name: string;
    readonly countries: readonly string[] | 'rest';
  }[];
  readonly services: readonly {
    readonly id: string;
    readonly name: string;
    readonly zone: string;
    readonly formats: readonly string[];
    readonly tracked: boolean;
    readonly compensation?: Money;
    readonly steps: readonly { readonly upTo: number; readonly price: Money }[];
  }[];
}

/** One unit of `of` is worth `rate` units of `to`. */
export interface Rate {
  readonly of: string;
  readonly to: string;
  readonly rate: number;
  readonly day: string;
}

export interface ShopMore {
  readonly facts: {
    readonly promiseDays: number;
    readonly assumeDays?: number;
    readonly origin?: string;
    readonly sender?: NoteCell;
    readonly packagings: readonly Packaging[];
    readonly labels?: LabelGrid;
    readonly rates: readonly Rate[];
    readonly customs: { readonly sdr: number; readonly from: string };
    readonly serviceLevel: number;
  };
  /** Versions of each table. */
  readonly tariffs: readonly (readonly Tariff[])[];
}

export const orderAddress = (key: string): string =>
  `/post/orders/${key.split('/').map(encodeURIComponent).join('/')}`;
export const parcelAddress = (parcel: string): string => `/post/parcels/${encodeURIComponent(parcel)}`;
