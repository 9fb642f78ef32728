/** `file.attach`: says what a picture, which is kept already, is a picture of. */
import { z } from 'zod';
import { command } from '../contract/plugin.ts';
import { type Refusal, refuse, type StreamKind, type Streams } from '../contract/streams.ts';
import { seen, sha256 } from '../contract/studio/material-events.ts';
import type { Firing, Material, Photo } from '../contract/studio/state.ts';
import { day, handle, id, lotOf, pieceId } from '../contract/studio/values.ts';
import { firingKind } from './firing/firing.ts';
import { clayKind, glazeKind, kilnKind, scheduleKind } from './materials/materials.ts';
import { pictureType } from './photos.ts';
import { noSuchPiece, portionOf, records } from './piece/part.ts';

const MATERIALS = { clay: clayKind, glaze: glazeKind, schedule: scheduleKind, kiln: kilnKind } as const;

const target = z.string().superRefine((text, context) => {
  const [kind, key] = partsOf(text);
  const fits =
    kind === 'piece'
      ? pieceId.safeParse(key).success
      : kind === 'firing'
        ? id.safeParse(key).success
        : kind in MATERIALS && handle.safeParse(key).success;
  if (!fits)
    context.addIssue({
      code: 'custom',
      message: 'what it shows: piece:…, firing:…, clay:…, glaze:…, schedule:… or kiln:… with its id',
    });
});

function partsOf(to: string): [kind: string, key: string] {
  const colon = to.indexOf(':');
  return [to.slice(0, colon), to.slice(colon + 1)];
}

/** The stream that the picture belongs to. */
function streamOf(to: string): string {
  const [kind, key] = partsOf(to);
  return kind === 'piece' ? `piece:${lotOf(key)}` : to;
}

export const attach = command({
  title: 'Attach a picture',
  input: z.strictObject({
    to: target,
    sha256,
    type: pictureType,
    bytes: z.number().int().min(1),
    width: z.number().int().min(1).optional(),
    height: z.number().int().min(1).optional(),
    taken: day.optional(),
    ...seen,
  }),
  files: (input) => [input.sha256],
  streams: (input) => [streamOf(input.to)],
  decide: (input, streams) => {
    const photos = photosOf(streams, input.to);
    if (!Array.isArray(photos)) return photos as Refusal;
    const [kind] = partsOf(input.to);
    if (kind !== 'piece' && (input.fault ?? input.zone ?? input.repair ?? input.shows))
      return refuse('no-piece-shown', 'Only a picture of a piece can show a fault or a repair.', 'to');
    if (input.shows && !input.repair)
      return refuse('no-repair-shown', 'Say before or after which repair it was taken.', 'repair');
    // The same picture of the same thing, sent again in another order.
    if (photos.some((photo) => sameAs(photo, input))) return [];
    return [records('file.attached', [streamOf(input.to)], input)];
  },
});

const sameAs = (
  photo: Photo,
  input: Pick<Photo, 'sha256' | 'fault' | 'zone' | 'repair' | 'shows'>,
): boolean =>
  photo.sha256 === input.sha256 &&
  photo.fault === input.fault &&
  photo.zone === input.zone &&
  photo.repair === input.repair &&
  photo.shows === input.shows;

/** The pictures there are of it, or that there is no such thing. */
function photosOf(streams: Streams, to: string): readonly Photo[] | Refusal {
  const [kind, key] = partsOf(to);
  if (kind === 'piece') return portionOf(streams, key)?.photos ?? noSuchPiece('to');
  if (kind === 'firing') {
    const firing = streams.of<Firing>(firingKind, key);
    return firing.state === 'none'
      ? refuse('no-such-firing', 'There is no such firing at that time; pack it first.', 'to')
      : firing.photos;
  }
  const of = MATERIALS[kind as keyof typeof MATERIALS] as unknown as StreamKind<Material>;
  const material = streams.of(of, key);
  return material.facts
    ? material.photos
    : refuse('no-such-material', `There is no ${kind} called ${key} at that time; add it first.`, 'to');
}
