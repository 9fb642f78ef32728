import { useState } from 'preact/hooks';
import { NoteField, SelectField, TextField } from '../parts/field.tsx';
import { habits, minorUnits, moneyText } from '../words/numbers.ts';
import { order as orderWords } from '../words/orders.ts';
import { parcel as words } from '../words/parcels.ts';
import { Do, RecordForm } from './record-form.tsx';
import { type Offer, orderAddress, type ParcelMore } from './types.ts';

const whyOf = (why: string) => (why.trim() ? { why: why.trim() } : {});

/** The cheapest service that fits is chosen until another one is. */
export function PostIt({ parcel, offers }: { readonly parcel: string; readonly offers: readonly Offer[] }) {
  const [service, setService] = useState(offers[0]?.service ?? '');
  const [number, setNumber] = useState('');
  const [cost, setCost] = useState('');
  const offer = offers.find((one) => one.service === service);
  const currency = offer?.price.currency ?? habits.value.currency;
  const wish = () => {
    const minor = cost.trim() ? minorUnits(cost, currency) : offer?.price.amount;
    if (cost.trim() && minor === undefined) return { missing: orderWords.wrongAmount };
    const input = {
      parcel,
      ...(offer ? { service: offer.name } : {}),
      ...(number.trim() ? { number: number.trim() } : {}),
      ...(minor === undefined ? {} : { cost: { amount: minor, currency } }),
    };
    return { wishes: [{ command: 'parcel.post', input }], sentence: words.postDone };
  };
  return (
    <>
      <RecordForm submit={words.postSubmit} wish={wish}>
        <TextField
          label={words.number}
          hint={words.numberHint}
          value={number}
          onValue={setNumber}
          optional
          input={{ autocomplete: 'off', autocapitalize: 'characters', spellcheck: false, maxLength: 60 }}
        />
        <div class="side-by-side">
          {offers.length > 0 && (
            <SelectField
              label={words.service}
              value={service}
              onValue={setService}
              none={words.serviceNone}
              options={offers.map((one) => ({
                value: one.service,
                label: `${one.name}, ${moneyText(one.price.amount, one.price.currency)}`,
              }))}
            />
          )}
          <TextField
            label={`${words.cost} (${currency})`}
            value={cost}
            onValue={setCost}
            optional
            input={{ inputMode: 'decimal', autocomplete: 'off' }}
          />
        </div>
      </RecordForm>
      <details>
        <summary>{words.unpack}</summary>
        <p class="buttons">
          <Do
            label={words.unpack}
            wish={{ command: 'parcel.unpack', input: { parcel } }}
            sentence={words.unpackDone}
            then="/post"
          />
        </p>
      </details>
    </>
  );
}

/** It has come, it is lost, it came back. */
export function Ends({ parcel }: { readonly parcel: string }) {
  const [why, setWhy] = useState('');
  const [sound, setSound] = useState(true);
  return (
    <section class="part no-paper">
      <RecordForm
        submit={words.arrive}
        wish={() => ({
          wishes: [{ command: 'parcel.arrive', input: { parcel } }],
          sentence: words.arriveDone,
        })}
      />
      <details>
        <summary>{words.lose}</summary>
        <RecordForm
          submit={words.loseSubmit}
          wish={() => ({
            wishes: [{ command: 'parcel.lose', input: { parcel, ...whyOf(why) } }],
            sentence: words.loseDone,
          })}
        >
          <p>{words.loseWhy}</p>
          <NoteField label={orderWords.why} value={why} onValue={setWhy} optional />
        </RecordForm>
      </details>
      <details>
        <summary>{words.back}</summary>
        <RecordForm
          submit={words.backSubmit}
          wish={() => ({
            wishes: [{ command: 'parcel.come-back', input: { parcel, sound, ...whyOf(why) } }],
            sentence: words.backDone,
          })}
        >
          <label class="tick">
            <input
              type="checkbox"
              checked={sound}
              onChange={(event) => setSound(event.currentTarget.checked)}
            />
            {words.backSound}
          </label>
          <NoteField label={orderWords.why} value={why} onValue={setWhy} optional />
        </RecordForm>
      </details>
    </section>
  );
}

/** After a loss or a return: the same once more, for each of its orders. */
export const SendAgain = ({
  parcel,
  orders,
}: {
  readonly parcel: string;
  readonly orders: ParcelMore['orders'];
}) => (
  <section class="part no-paper">
    <h2>{words.again}</h2>
    <p class="buttons">
      {orders.map(({ order, number }) => (
        <Do
          key={order}
          main
          label={words.againFor(number)}
          wish={{ command: 'order.replace', input: { order, parcel } }}
          sentence={words.againDone}
          then={orderAddress(order)}
        />
      ))}
    </p>
  </section>
);
