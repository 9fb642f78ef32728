/** The load as it is being put together, before anything is recorded. Pure. */
import type { WareRow } from '../api/studio.ts';

export interface Put {
  readonly piece: string;
  readonly mark: string | null;
  readonly form: string | null;
  /** Pieces in the lot. */
  readonly of: number;
  readonly count: number;
  readonly stage: WareRow['stage'];
  readonly shelf: number;
  readonly position: string;
  readonly furniture: readonly string[];
}

export type Load = readonly Put[];

/** Puts a piece on a shelf, or takes it off again. */
export function toggle(load: Load, row: WareRow, shelf: number, furniture: readonly string[]): Load {
  if (load.some((put) => put.piece === row.piece)) return load.filter((put) => put.piece !== row.piece);
  const { piece, mark, form, count, stage } = row;
  return [...load, { piece, mark, form, of: count, count, stage, shelf, position: '', furniture }];
}

export const change = (load: Load, piece: string, by: Partial<Put>): Load =>
  load.map((put) => (put.piece === piece ? { ...put, ...by } : put));

export interface ShelfOf<P> {
  readonly shelf: number | null;
  readonly puts: readonly P[];
}

/** From the top shelf down; what has no shelf comes last. */
export function byShelf<P extends { readonly shelf: number | null }>(
  load: readonly P[],
): readonly ShelfOf<P>[] {
  const shelves = [...new Set(load.map((put) => put.shelf))].sort((a, b) => (a ?? 1e9) - (b ?? 1e9));
  return shelves.map((shelf) => ({ shelf, puts: load.filter((put) => put.shelf === shelf) }));
}

export const piecesIn = (load: readonly { readonly count: number }[]): number =>
  load.reduce((sum, put) => sum + put.count, 0);

/** The places of `firing.pack`: a count only where part of a lot goes in. */
export const placesOf = (load: Load) =>
  load.map((put) => ({
    piece: put.piece,
    shelf: put.shelf,
    ...(put.count < put.of ? { count: put.count } : {}),
    ...(put.position.trim() ? { position: put.position.trim() } : {}),
    ...(put.furniture.length > 0 ? { furniture: put.furniture } : {}),
  }));
