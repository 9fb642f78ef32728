/** Which streams one of the studio's own events belongs to, told from its data. */
import type { Entry } from '../../server/contract/entry.ts';
import { lotOf } from '../../server/contract/studio/values.ts';

interface Told {
  readonly piece?: string;
  readonly firing?: string;
  readonly places?: readonly { readonly piece: string }[];
  readonly pieces?: readonly string[];
  readonly person?: string;
  readonly id?: string;
  readonly to?: string;
  readonly run?: string;
}

const MATERIALS = ['clay', 'glaze', 'schedule', 'kiln'];

/** @param before the entries before it: a firing that is lit takes along what was packed in it */
export function streamsOf(name: string, data: unknown, before: readonly Entry[]): string[] {
  const told = data as Told;
  const prefix = name.slice(0, name.indexOf('.'));
  if (prefix === 'studio' || prefix === 'word') return ['studio:settings'];
  if (prefix === 'file') return [told.to!];
  if (prefix === 'mark') return [`marks:${told.run}`];
  const pieces = [told.piece, ...(told.places ?? []).map((place) => place.piece), ...(told.pieces ?? [])];
  const streams = pieces.flatMap((piece) => (piece ? [`piece:${lotOf(piece)}`] : []));
  if (prefix === 'firing') streams.push(`firing:${told.firing}`, ...packedIn(told.firing!, before));
  if (prefix === 'person') streams.push(`person:${told.person}`);
  if (told.id && MATERIALS.includes(prefix) && name !== 'glaze.applied') streams.push(`${prefix}:${told.id}`);
  if (streams.length === 0) throw new Error(`say which streams ${name} belongs to`);
  return [...new Set(streams)];
}

const packedIn = (firing: string, before: readonly Entry[]): string[] =>
  before
    .filter((entry) => entry.name === 'firing.packed' && entry.streams.includes(`firing:${firing}`))
    .flatMap((entry) => entry.streams);
