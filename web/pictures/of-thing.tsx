import type { Photo } from '../../server/contract/studio/state.ts';
import { useMaterials } from '../api/use-materials.ts';
import { pictures as words } from '../words/pictures.ts';
import { shownOf } from './shown.ts';
import { Strip } from './strip.tsx';
import { TakePicture } from './take.tsx';

interface Props {
  readonly to: string;
  readonly name: string;
  readonly photos: readonly Photo[];
  readonly past?: boolean;
}

/** The pictures of a firing or a material, and another one. */
export function PicturesOf({ to, name, photos, past = false }: Props) {
  const materials = useMaterials();
  const shown = photos.map((photo) => shownOf(photo, name, materials)).reverse();
  return (
    <div class="pictures">
      <h3>{words.title}</h3>
      {shown.length === 0 && <p class="soft">{words.none}</p>}
      <Strip pictures={shown} label={`${words.title}: ${name}`} />
      {!past && <TakePicture to={to} />}
    </div>
  );
}
