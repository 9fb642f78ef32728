/** Pictures: what is attached to a piece, a firing or a material. */
import { z } from 'zod';
import type { Entry } from '../contract/entry.ts';
import { PICTURE_TYPES } from '../contract/picture/picture.ts';
import type { StudioData } from '../contract/studio/events.ts';
import type { Photo } from '../contract/studio/state.ts';

export function photoOf(data: StudioData<'file.attached'>, entry: Entry): Photo {
  const { sha256, width, height, fault, zone, repair, shows, taken } = data;
  const at = taken ?? entry.happenedAt;
  return { seq: entry.seq, sha256, at, width, height, fault, zone, repair, shows };
}

export const pictureType = z.enum(PICTURE_TYPES);
