import type { Photo } from '../../server/contract/studio/state.ts';
import { useMaterials } from '../api/use-materials.ts';
import { pictures as words } from '../words/pictures.ts';
import { shownOf } from './shown.ts';
import { Strip } from './strip.tsx';

/** A repair's latest picture before it, and its latest after, side by side. */
export function BeforeAfter({
  photos,
  thing,
}: {
  readonly photos: readonly Photo[];
  readonly thing: string;
}) {
  const materials = useMaterials();
  const repairs = [...new Set(photos.flatMap(({ repair }) => (repair ? [repair] : [])))];
  const pairs = repairs.flatMap((repair) => {
    const of = (shows: 'before' | 'after') =>
      photos.findLast((photo) => photo.repair === repair && photo.shows === shows);
    const [before, after] = [of('before'), of('after')];
    return before && after ? [{ repair, both: [before, after] }] : [];
  });
  return (
    <>
      {pairs.map(({ repair, both }) => (
        <div key={repair} class="before-after">
          <h4>
            {words.beforeAfter}: {materials.name('repair', repair)}
          </h4>
          <Strip
            label={`${words.beforeAfter}: ${materials.name('repair', repair)}`}
            pictures={both.map((photo) => shownOf(photo, thing, materials))}
            caption={(picture) => picture.what}
          />
        </div>
      ))}
    </>
  );
}
