import { useState } from 'preact/hooks';
import { noteText } from '../api/studio.ts';
import { NoteField, TextField } from '../parts/field.tsx';
import { amountText, minorUnits } from '../words/numbers.ts';
import { newOrder, order as words } from '../words/orders.ts';
import { type DraftLine, inputOf, LineFields } from './line-fields.tsx';
import { RecordForm } from './record-form.tsx';
import type { Money, Order } from './types.ts';

export function KeepNote({ order }: { readonly order: string }) {
  const [note, setNote] = useState('');
  return (
    <RecordForm
      submit={words.noteSubmit}
      onDone={() => setNote('')}
      wish={() =>
        note.trim()
          ? {
              wishes: [{ command: 'order.note', input: { order, note: note.trim() } }],
              sentence: words.noteDone,
            }
          : { missing: words.note }
      }
    >
      <NoteField label={words.note} value={note} onValue={setNote} />
    </RecordForm>
  );
}

export function StopOrder({ order }: { readonly order: string }) {
  const [why, setWhy] = useState('');
  return (
    <RecordForm
      submit={words.cancelSubmit}
      wish={() => ({
        wishes: [{ command: 'order.cancel', input: { order, ...(why.trim() ? { why: why.trim() } : {}) } }],
        sentence: words.cancelDone,
      })}
    >
      <p>{words.cancelWhy}</p>
      <NoteField label={words.why} value={why} onValue={setWhy} optional />
    </RecordForm>
  );
}

export function PayBack({ order }: { readonly order: Order }) {
  const { currency } = order.sums[0] as Money;
  const [amount, setAmount] = useState('');
  const [why, setWhy] = useState('');
  const minor = minorUnits(amount, currency);
  return (
    <RecordForm
      submit={words.refundSubmit}
      onDone={() => setAmount('')}
      wish={() =>
        minor
          ? {
              wishes: [
                {
                  command: 'order.refund',
                  input: {
                    order: order.order,
                    amount: { amount: minor, currency },
                    ...(why.trim() ? { why: why.trim() } : {}),
                  },
                },
              ],
              sentence: words.refundDone,
            }
          : { missing: words.wrongAmount }
      }
    >
      <TextField
        label={`${words.amount} (${currency})`}
        value={amount}
        onValue={setAmount}
        input={{ inputMode: 'decimal', autocomplete: 'off' }}
      />
      <NoteField label={words.why} value={why} onValue={setWhy} optional />
    </RecordForm>
  );
}

/** Only what was changed is sent; what is cancelled is not asked for any more. */
export function ChangeOrder({ order }: { readonly order: Order }) {
  const before = {
    name: noteText(order.name) ?? '',
    address: noteText(order.address) ?? '',
    postcode: noteText(order.postcode) ?? '',
    email: noteText(order.email) ?? '',
    promise: order.promise,
  };
  const firstLines = order.lines
    .filter((line) => !line.cancelled)
    .map(
      ({ name, quantity, price }): DraftLine => ({
        item: name,
        quantity,
        price: price ? amountText(price.amount, price.currency) : '',
        currency: price?.currency ?? order.sums[0]?.currency ?? '',
      }),
    );
  const [draft, setDraft] = useState(before);
  const [lines, setLines] = useState<readonly DraftLine[]>(firstLines);
  const set = (field: keyof typeof before) => (value: string) => setDraft({ ...draft, [field]: value });
  const wish = () => {
    const changed = Object.entries(draft)
      .map(([field, value]) => [field, value.trim()] as const)
      .filter(([field, value]) => value && value !== before[field as keyof typeof before]);
    const read = inputOf(lines);
    if ('missing' in read) return read;
    const asked = JSON.stringify(lines) === JSON.stringify(firstLines) ? {} : { lines: read.lines };
    const input = { order: order.order, ...Object.fromEntries(changed), ...asked };
    return { wishes: [{ command: 'order.change', input }], sentence: words.changeDone };
  };
  return (
    <RecordForm submit={words.changeSubmit} wish={wish}>
      <TextField label={newOrder.buyer} value={draft.name} onValue={set('name')} />
      <NoteField
        label={newOrder.address}
        hint={newOrder.addressHint}
        value={draft.address}
        onValue={set('address')}
      />
      <div class="side-by-side">
        <TextField label={newOrder.postcode} value={draft.postcode} onValue={set('postcode')} />
        <TextField label={newOrder.email} value={draft.email} onValue={set('email')} />
        <TextField label={newOrder.promise} type="date" value={draft.promise} onValue={set('promise')} />
      </div>
      <LineFields lines={lines} onLines={setLines} />
    </RecordForm>
  );
}
