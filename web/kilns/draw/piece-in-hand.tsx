import { useEffect, useState } from 'preact/hooks';
import { nameText, type PlaceRow } from '../../api/studio.ts';
import { useMaterials } from '../../api/use-materials.ts';
import { announce } from '../../app/announce.ts';
import { Pot } from '../../drawings/pot.tsx';
import { Mark } from '../../parts/mark.tsx';
import { shownOf } from '../../pictures/shown.ts';
import { Thumb } from '../../pictures/thumb.tsx';
import { Viewer } from '../../pictures/viewer.tsx';
import { layerText } from '../../piece/glazed.tsx';
import { titleOf } from '../../ware/ware-list.tsx';
import { draw as words } from '../../words/draw.ts';
import { pictures as pictureWords } from '../../words/pictures.ts';
import { piece as pieceWords } from '../../words/piece.ts';
import { gradeNames, named, ownerNames } from '../../words/trade.ts';

export const nameOf = (row: PlaceRow): string => `${row.mark ?? ''} ${titleOf(row)}`.trim();

/** What one needs to know of the piece in the hand: its code large, whose it is, what is on it, what happened last time. */
export function PieceInHand({ row }: { readonly row: PlaceRow }) {
  const what = nameOf(row);
  useEffect(() => {
    announce(`${what}, ${words.shelf(row.shelf)}`);
  }, [what, row.shelf]);
  return (
    <section class="in-hand" aria-label={what}>
      <div class="in-hand-head">
        <div>
          <h2>
            <Mark mark={row.mark} />
          </h2>
          <p class="form">{titleOf(row)}</p>
          <p>{[words.shelf(row.shelf), row.position, row.clayName].filter(Boolean).join(' · ')}</p>
          {row.owner !== 'own' && (
            <p class="needs-you">
              {words.whose(nameText(row.ownerName) ?? words.nobody, named(ownerNames, row.owner))}
            </p>
          )}
        </div>
        <PhotoSlot row={row} />
      </div>
      <OnIt row={row} />
      <LastTime row={row} />
    </section>
  );
}

/** Its newest photograph where there is one, which opens larger; else the outline of a pot with its glazed zones. */
function PhotoSlot({ row }: { readonly row: PlaceRow }) {
  const materials = useMaterials();
  const [gone, setGone] = useState<string>();
  const [at, setAt] = useState<number>();
  const [newest, ...older] = row.photos.map((photo) => shownOf(photo, titleOf(row), materials)).reverse();
  if (newest && newest.sha256 !== gone)
    return (
      <div class="photo">
        <Thumb
          key={newest.sha256}
          picture={newest}
          caption={pictureWords.day(newest.at)}
          onOpen={() => setAt(0)}
          onGone={() => setGone(newest.sha256)}
        />
        {at !== undefined && (
          <Viewer list={[newest, ...older]} at={at} onAt={setAt} onClose={() => setAt(undefined)} />
        )}
      </div>
    );
  const zones = row.glazings.map((g) => g.zone).filter((zone) => zone !== null);
  return (
    <Pot
      filled={zones}
      faults={row.lastTime?.faults.map(({ kind, zone }) => ({ kind, ...(zone ? { zone } : {}) }))}
    />
  );
}

function OnIt({ row }: { readonly row: PlaceRow }) {
  const materials = useMaterials();
  if (row.glazings.length === 0) return <p>{words.noGlaze}</p>;
  return (
    <dl class="on-it">
      {row.glazings.map((glazing, n) => (
        <div key={n}>
          <dt>{glazing.zone ? materials.name('zone', glazing.zone) : pieceWords.zoneUnknown}</dt>
          <dd>{glazing.layers.map((layer) => layerText(layer, layer.name)).join(words.over)}</dd>
        </div>
      ))}
    </dl>
  );
}

function LastTime({ row }: { readonly row: PlaceRow }) {
  const materials = useMaterials();
  const last = row.lastTime;
  if (!last) return null;
  const seen = [
    last.grade && gradeNames[last.grade],
    ...last.faults.map(({ kind, zone }) =>
      zone
        ? words.onZone(materials.name('fault', kind), materials.name('zone', zone))
        : materials.name('fault', kind),
    ),
  ].filter(Boolean);
  const mended = last.repairs.map((method) => materials.name('repair', method));
  return (
    <p class="last-time">
      <strong>{words.lastTime}</strong> {words.lastIn(last.label, last.at)}:{' '}
      {seen.length > 0 ? seen.join(', ') : words.lastClean}
      {mended.length > 0 && `; ${words.mendedSince(mended.join(', '))}`}
    </p>
  );
}
