import type { PieceRow } from '../api/studio.ts';
import { type Materials, useMaterials } from '../api/use-materials.ts';
import { titleOf } from '../ware/ware-list.tsx';
import { pictures as words } from '../words/pictures.ts';
import { BeforeAfter } from './before-after.tsx';
import { FromBuyers } from './from-buyers.tsx';
import { shownOf } from './shown.ts';
import { Strip } from './strip.tsx';
import { type Aim, TakePicture } from './take.tsx';

interface Props {
  readonly piece: PieceRow;
  /** The past is looked at: nothing is taken. */
  readonly past: boolean;
}

/** The pictures of a piece, the newest first, and another one. */
export function PicturesOfPiece({ piece, past }: Props) {
  const materials = useMaterials();
  const thing = titleOf({ count: piece.count, form: piece.form ?? null });
  const shown = piece.photos.map((photo) => shownOf(photo, thing, materials)).reverse();
  return (
    <div class="pictures">
      <h3>{words.title}</h3>
      {shown.length === 0 && <p class="soft">{past ? words.none : words.noneOfPiece}</p>}
      <Strip pictures={shown} caption={(picture) => captionOf(picture.what, thing)} label={words.title} />
      <FromBuyers piece={piece.piece} />
      <BeforeAfter photos={piece.photos} thing={thing} />
      {!past && <TakePicture to={`piece:${piece.piece}`} aims={aimsOf(piece, materials)} />}
    </div>
  );
}

/** Under a picture of the whole piece nothing need be said. */
const captionOf = (what: string, thing: string): string => (what === thing ? '' : what);

function aimsOf(piece: PieceRow, materials: Materials): readonly Aim[] {
  const faults = [...new Set(piece.faults.map(({ kind }) => kind))];
  const repairs = [...new Set(piece.repairs.map(({ method }) => method))];
  return [
    ...faults.map((fault) => ({
      value: `fault ${fault}`,
      label: words.fault(materials.name('fault', fault)),
      says: { fault },
    })),
    ...repairs.flatMap((repair) =>
      (['before', 'after'] as const).map((shows) => ({
        value: `${shows} ${repair}`,
        label: words[shows](materials.name('repair', repair)),
        says: { repair, shows },
      })),
    ),
  ];
}
