/** Taking part of a lot: any move of some of a lot splits them off in the same append. */
import type { At } from '../../contract/plugin.ts';
import { type Recorded, type Refusal, refuse, type Streams } from '../../contract/streams.ts';
import type { StudioData, StudioEventName } from '../../contract/studio/events.ts';
import type { Portion } from '../../contract/studio/state.ts';
import { lotOf, portionIn } from '../../contract/studio/values.ts';
import { pieceKind, pieceStream } from './lot.ts';

/** One of the studio's events, with its data checked by the compiler. */
export const records = <Name extends StudioEventName>(
  name: Name,
  streams: readonly string[],
  data: StudioData<Name>,
  claims?: readonly string[],
  releases?: readonly string[],
): Recorded => ({
  name,
  streams,
  data,
  ...(claims ? { claims } : {}),
  ...(releases ? { releases } : {}),
});

/** The id of the nth part that a command splits off: the same again when the command is repeated. */
export const partId = (piece: string, at: Pick<At, 'command'>, n: number): string =>
  `${lotOf(piece)}.${at.command.replaceAll('-', '').slice(-10)}${n.toString(36)}`;

export const portionOf = (streams: Streams, piece: string): Portion | undefined =>
  portionIn(streams.of(pieceKind, lotOf(piece)), piece);

export const noSuchPiece = (field = 'piece'): Refusal =>
  refuse(
    'no-such-piece',
    'There is no such piece at that time; begin it first, or give a later date.',
    field,
  );

export interface Taken {
  readonly piece: string;
  readonly count: number;
  readonly portion: Portion;
  /** The split, where only some are taken. */
  readonly split: readonly Recorded[];
}

/** All of a piece, or `count` of its lot split off as the nth part of this command. */
export function take(
  streams: Streams,
  at: At,
  piece: string,
  count: number | undefined,
  n = 0,
): Taken | Refusal {
  const portion = portionOf(streams, piece);
  if (!portion) return noSuchPiece();
  if (count === undefined || count === portion.count)
    return { piece, count: portion.count, portion, split: [] };
  if (count > portion.count)
    return refuse('too-many', `There are only ${portion.count} of them, not ${count}.`, 'count');
  const part = partId(piece, at, n);
  const split = records('lot.split', [pieceStream(piece)], { piece, into: [{ piece: part, count }] });
  return { piece: part, count, portion, split: [split] };
}

export const isRefused = (taken: Taken | Refusal): taken is Refusal => 'refused' in taken;
