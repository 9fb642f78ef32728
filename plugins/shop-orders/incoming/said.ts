/** What a file or feed says of an order, read and checked, before it is held against what is recorded. */
import type { Money } from '../../../server/contract/studio/values.ts';

export interface SaidLine {
  /** Its name as it came. */
  readonly item: string;
  readonly quantity: number;
  /** Of one. */
  readonly price?: Money;
}

export interface SaidParcel {
  readonly posted: string;
  readonly service?: string;
  readonly number?: string;
  readonly arrived?: string;
  /** Places in `lines` of what was in it. */
  readonly lines: readonly number[];
  /** Row of the file. */
  readonly at: number;
}

/** Fields that the way does not know are left out, and not held against what is recorded. */
export interface SaidOrder {
  /** Row of the file, or place in the feed. */
  readonly at: number;
  readonly number: string;
  readonly placed: string;
  readonly promise?: string;
  readonly name?: string;
  readonly email?: string;
  /** Lines by line breaks. */
  readonly address?: string;
  readonly postcode?: string;
  readonly country?: string;
  readonly note?: string;
  readonly postage?: Money;
  readonly lines: readonly SaidLine[];
  readonly parcels: readonly SaidParcel[];
  readonly cancelled?: boolean;
  /** Some of its lines could not be read. */
  readonly partly?: boolean;
}
