/**
 * What the log holds. An entry is one thing that happened; entries are never
 * changed or removed, only struck out by a later entry.
 */

/** A day ('2026-05-01') or a moment with its offset ('2026-05-01T10:15:00+01:00'), in the studio's zone. */
export type HappenedAt = string;

/** A UTC instant to the millisecond ('2026-05-01T09:15:00.000Z'). */
export type RecordedAt = string;

export interface Entry<Name extends string = string, Data = unknown> {
  /** Place in the log, from 1, without gaps. */
  readonly seq: number;
  /** The client-made UUIDv7 of the command that caused it. */
  readonly command: string;
  /** Place among the entries of that command, from 0. */
  readonly part: number;
  readonly name: Name;
  /** Version of the shape of `data`, from 1. */
  readonly version: number;
  readonly happenedAt: HappenedAt;
  /** Never decreases along `seq`. */
  readonly recordedAt: RecordedAt;
  /** Opaque id of who recorded it. */
  readonly who: string;
  /** Opaque id of the device it was recorded on. */
  readonly device: string;
  /**
   * What that device's own clock showed when it was noted, with its offset ('2026-05-01T10:15:00.000+01:00'):
   * of what was noted on a device and sent later. `happenedAt` is the studio's word.
   */
  readonly clock?: string;
  /** Every stream the entry belongs to ('piece:…', 'firing:…'). */
  readonly streams: readonly string[];
  /** Names that only one entry may hold at a time (foot marks, order numbers). */
  readonly claims?: readonly string[];
  /** Claims given up by this entry. */
  readonly releases?: readonly string[];
  readonly data: Data;
}

/** An entry before the log has given it its place and time. */
export type NewEntry<Name extends string = string, Data = unknown> = Pick<
  Entry<Name, Data>,
  'name' | 'version' | 'happenedAt' | 'streams' | 'claims' | 'releases' | 'data'
>;
