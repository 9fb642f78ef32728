import { useState } from 'preact/hooks';
import { noteText } from '../api/studio.ts';
import { NoteField, SelectField } from '../parts/field.tsx';
import { Strip } from '../pictures/strip.tsx';
import { TakePicture } from '../pictures/take.tsx';
import { order as words } from '../words/orders.ts';
import { RecordForm } from './record-form.tsx';
import type { Allowed, BuyersPicture, Order } from './types.ts';

const ALL: readonly Allowed[] = ['keep', 'show', 'name'];

const saidOf = ({ allows }: BuyersPicture): string =>
  allows.includes('name') && allows.includes('show')
    ? words.mayName
    : allows.includes('show')
      ? words.mayShow
      : words.onlyKept;

/** What the buyer sent, with what they allow. */
export function BuyersPictures({ order }: { readonly order: Order }) {
  const kept = order.pictures.filter(({ sha256 }) => sha256 !== null);
  if (kept.length === 0) return null;
  const shown = kept.map((one) => ({ ...one, sha256: one.sha256!, what: words.pictureOf(order.number) }));
  return (
    <section class="part">
      <h2>{words.pictures}</h2>
      <Strip
        pictures={shown.toReversed()}
        caption={({ seq }) => saidOf(kept.find((one) => one.seq === seq)!)}
        label={words.pictures}
      />
      {kept.map((one) => noteText(one.note) && <p key={one.seq}>“{noteText(one.note)}”</p>)}
      <p class="small soft">{words.pictureGone}</p>
      {kept.map((one) => (
        <details key={one.seq} class="no-paper">
          <summary>
            {words.allowsChange}
            {kept.length > 1 && ` (${kept.indexOf(one) + 1})`}
          </summary>
          <Change order={order} picture={one} />
        </details>
      ))}
    </section>
  );
}

interface AllowsProps {
  readonly allows: readonly Allowed[];
  readonly onAllows: (allows: readonly Allowed[]) => void;
  readonly choices?: readonly Allowed[];
}

const Allows = ({ allows, onAllows, choices = ALL }: AllowsProps) => (
  <fieldset>
    <legend>{words.allows}</legend>
    {choices.map((one) => (
      <label key={one} class="tick">
        <input
          type="checkbox"
          checked={allows.includes(one)}
          onChange={(event) =>
            onAllows(event.currentTarget.checked ? [...allows, one] : allows.filter((other) => other !== one))
          }
        />{' '}
        {words.allowed[one]}
      </label>
    ))}
  </fieldset>
);

function Change({ order, picture }: { readonly order: Order; readonly picture: BuyersPicture }) {
  const [allows, setAllows] = useState(picture.allows);
  const { sha256, type, bytes, width, height, piece } = picture;
  const input = {
    order: order.order,
    ...{ sha256, type, bytes, width, height, allows },
    ...(piece === null ? {} : { piece }),
  };
  return (
    <RecordForm
      now
      submit={words.allowsSubmit}
      wish={() => ({ wishes: [{ command: 'order.keep-picture', input }], sentence: words.allowsDone })}
    >
      <Allows allows={allows} onAllows={setAllows} choices={['show', 'name']} />
    </RecordForm>
  );
}

/** First what the buyer allows, then the picture. */
export function KeepPicture({ order }: { readonly order: Order }) {
  const [allows, setAllows] = useState<readonly Allowed[]>(['keep']);
  const [note, setNote] = useState('');
  const [piece, setPiece] = useState('');
  const pots = order.lines.filter((line) => line.piece !== null);
  return (
    <>
      <Allows allows={allows} onAllows={setAllows} />
      {pots.length > 0 && (
        <SelectField
          label={words.showsPot}
          value={piece}
          onValue={setPiece}
          none={words.showsNothing}
          options={pots.map((line) => ({ value: line.piece!, label: line.name }))}
        />
      )}
      <NoteField label={words.pictureNote} value={note} onValue={setNote} optional />
      {allows.includes('keep') ? (
        <TakePicture
          to={`order:${order.order}`}
          onKept={() => setNote('')}
          wish={(picture) => ({
            command: 'order.keep-picture',
            input: {
              order: order.order,
              ...picture,
              allows,
              ...(piece ? { piece } : {}),
              ...(note.trim() ? { note: note.trim() } : {}),
            },
          })}
        />
      ) : (
        <p>{words.notAllowed}</p>
      )}
    </>
  );
}
