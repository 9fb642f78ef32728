import { useRef, useState } from 'preact/hooks';
import { greyOf } from '../../plugins/template-sheets/scan/grey.ts';
import { readScan } from '../../plugins/template-sheets/scan/read-scan.ts';
import { SelectField } from '../parts/field.tsx';
import { templates as words } from '../words/templates.ts';
import { FileField, type OnBrought } from './from-svg.tsx';
import {
  firstKnown,
  isTwo,
  type KnownDraft,
  knownOf,
  type Reference,
  type Spot,
  waiting,
} from './known-size.ts';
import { MarkBoard } from './mark-board.tsx';
import { NumberField } from './measures.tsx';

/** Longest side that is traced; more only takes longer. */
const LONGEST = 1800;

async function pictureOf(file: File): Promise<ImageBitmap> {
  const whole = await createImageBitmap(file);
  const scale = LONGEST / Math.max(whole.width, whole.height);
  if (scale >= 1) return whole;
  return createImageBitmap(whole, {
    resizeWidth: Math.round(whole.width * scale),
    resizeHeight: Math.round(whole.height * scale),
    resizeQuality: 'high',
  });
}

function greyFrom(picture: ImageBitmap) {
  const board = new OffscreenCanvas(picture.width, picture.height);
  const context = board.getContext('2d')!;
  context.drawImage(picture, 0, 0);
  return greyOf(
    picture.width,
    picture.height,
    context.getImageData(0, 0, picture.width, picture.height).data,
  );
}

/** A picture, what of known size lies in it, and the paper's outline. */
export function FromScan({ onBrought }: OnBrought) {
  const [picture, setPicture] = useState<ImageBitmap>();
  const [known, setKnown] = useState(firstKnown);
  const [spots, setSpots] = useState<readonly Spot[]>([]);
  const [tolerance, setTolerance] = useState('0.2');
  const [tracing, setTracing] = useState(false);
  const asked = useRef(0);
  const begin = (of: ImageBitmap, next: KnownDraft) => setSpots(waiting(isTwo(next), of.width, of.height));
  const take = async (file: File) => {
    const turn = ++asked.current;
    const found = await pictureOf(file).catch(() => undefined);
    if (turn !== asked.current) return;
    setPicture(found);
    if (!found) return onBrought({ said: [words.noPicture(file.name)] });
    onBrought({ said: [] });
    begin(found, known);
  };
  const change = (next: KnownDraft) => {
    setKnown(next);
    if (picture && isTwo(next) !== isTwo(known)) begin(picture, next);
  };
  const trace = () => {
    setTracing(true);
    // The word that it is at work is painted first.
    setTimeout(() => {
      const read = readScan(greyFrom(picture!), knownOf(known, spots), Number(tolerance) || undefined);
      setTracing(false);
      onBrought('wrong' in read ? { said: read.wrong } : { spec: read.spec, said: [] });
    }, 30);
  };
  const left = spots.filter(({ placed }) => !placed).length;
  return (
    <>
      <FileField
        label={words.photo}
        hint={words.photoHint}
        accept="image/png,image/jpeg,image/webp"
        onFile={take}
      />
      {picture && (
        <>
          <KnownFields known={known} onKnown={change} />
          <p class="marks-asked">
            {isTwo(known) ? words.points : words.corners}{' '}
            <span aria-live="polite">{words.marksLeft(left, isTwo(known))}</span>
          </p>
          <p class="hint">{words.markKeys}</p>
          <MarkBoard key={spots.length} picture={picture} spots={spots} onSpots={setSpots} />
          <NumberField
            label={words.tolerance}
            hint={words.toleranceHint}
            value={tolerance}
            onValue={setTolerance}
          />
          <p class="buttons">
            <button type="button" disabled={left > 0 || tracing} onClick={trace}>
              {tracing ? words.tracing : words.trace}
            </button>
            <button type="button" onClick={() => begin(picture, known)}>
              {words.startAgain}
            </button>
          </p>
        </>
      )}
    </>
  );
}

interface KnownProps {
  readonly known: KnownDraft;
  readonly onKnown: (known: KnownDraft) => void;
}

const KnownFields = ({ known, onKnown }: KnownProps) => (
  <div class="side-by-side">
    <SelectField
      label={words.known}
      value={known.reference}
      onValue={(reference) => onKnown({ ...known, reference: reference as Reference })}
      options={Object.entries(words.references).map(([value, label]) => ({ value, label }))}
    />
    {known.reference === 'sheet' && (
      <>
        <NumberField
          label={words.sheetWidth}
          value={known.width}
          onValue={(width) => onKnown({ ...known, width })}
        />
        <NumberField
          label={words.sheetHeight}
          value={known.height}
          onValue={(height) => onKnown({ ...known, height })}
        />
      </>
    )}
    {known.reference === 'points' && (
      <NumberField
        label={words.pointsApart}
        value={known.length}
        onValue={(length) => onKnown({ ...known, length })}
      />
    )}
  </div>
);
