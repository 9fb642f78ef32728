/** A picture as the page shows it, wherever it comes from. */
import type { Photo } from '../../server/contract/studio/state.ts';
import type { Materials } from '../api/use-materials.ts';
import { pictures as words } from '../words/pictures.ts';

export interface Shown {
  readonly seq: number;
  readonly sha256: string;
  readonly at: string;
  /** What it is a picture of, in words. */
  readonly what: string;
  readonly width?: number | null;
  readonly height?: number | null;
  readonly href?: string;
  readonly hrefName?: string;
}

/** What a picture shows, in words: the fault, the repair, or the thing itself. */
export function whatOf(
  photo: Partial<Record<'fault' | 'repair' | 'shows', string | null>>,
  thing: string,
  materials: Pick<Materials, 'name'>,
): string {
  if (photo.repair) {
    const name = materials.name('repair', photo.repair);
    return photo.shows === 'before' ? words.beforeOf(name) : words.afterOf(name);
  }
  return photo.fault ? materials.name('fault', photo.fault) : thing;
}

export const shownOf = (photo: Photo, thing: string, materials: Pick<Materials, 'name'>): Shown => ({
  ...photo,
  what: whatOf(photo, thing, materials),
});
