import { useState } from 'preact/hooks';
import { newId } from '../api/ids.ts';
import { useReport } from '../api/use-report.ts';
import { CountField } from '../parts/count-field.tsx';
import { SelectField, TextField } from '../parts/field.tsx';
import { order as words } from '../words/orders.ts';
import { post } from '../words/post.ts';
import { RecordForm } from './record-form.tsx';
import { type Order, type OrderMore, parcelAddress, type ShopMore } from './types.ts';

/** A parcel of what is open, in what it is packed, and what it weighs. */
export function Pack({ order, others }: { readonly order: Order; readonly others: OrderMore['others'] }) {
  const [parcel] = useState(newId);
  const [some, setSome] = useState<Readonly<Record<string, number>>>({});
  const [packaging, setPackaging] = useState('');
  const [weight, setWeight] = useState('');
  const [anyway, setAnyway] = useState(false);
  const [short, setShort] = useState(false);
  const [along, setAlong] = useState<readonly string[]>([]);
  const shop = useReport<never, ShopMore>('shop-orders/shop');
  const open = order.lines.filter((line) => line.open > 0);
  const packagings = shop.answer?.more.facts.packagings ?? [];

  const wish = () => {
    const lines = open
      .map(({ line, open: most }) => ({ order: order.order, line, quantity: some[line] ?? most }))
      .filter(({ quantity }) => quantity > 0);
    const partly = open.some(({ line, open: most }) => (some[line] ?? most) < most);
    const input = {
      parcel,
      orders: [order.order, ...along],
      ...(partly ? { lines } : {}),
      ...(packaging ? { packaging } : {}),
      ...(Number(weight) > 0 ? { weight: Math.round(Number(weight)) } : {}),
      ...(anyway ? { anyway } : {}),
    };
    return { wishes: [{ command: 'parcel.pack', input }], sentence: words.packDone };
  };

  return (
    <RecordForm
      submit={words.packSubmit}
      wish={wish}
      then={parcelAddress(parcel)}
      instead={(problem) => {
        if (problem.code === 'not-in-stock' && !short) queueMicrotask(() => setShort(true));
        return null;
      }}
    >
      {open.map((line) =>
        open.length > 1 || line.open > 1 ? (
          <CountField
            key={line.line}
            label={line.name}
            hint={line.stock === null ? undefined : words.stock(line.stock)}
            value={some[line.line] ?? line.open}
            onValue={(n) => setSome({ ...some, [line.line]: n })}
            max={line.open}
          />
        ) : (
          <p key={line.line}>
            {post.line(line.open, line.name)}
            {line.stock !== null && <span class="soft">, {words.stock(line.stock)}</span>}
          </p>
        ),
      )}
      {others.map((other) => (
        <label key={other.order} class="tick">
          <input
            type="checkbox"
            checked={along.includes(other.order)}
            onChange={(event) =>
              setAlong(
                event.currentTarget.checked
                  ? [...along, other.order]
                  : along.filter((key) => key !== other.order),
              )
            }
          />
          {words.packWith(other.number)}
        </label>
      ))}
      <div class="side-by-side">
        {packagings.length > 0 && (
          <SelectField
            label={words.packaging}
            value={packaging}
            onValue={setPackaging}
            none={words.packagingNone}
            options={packagings.map(({ id, name }) => ({ value: id, label: name }))}
          />
        )}
        <TextField
          label={words.weight}
          hint={words.weightHint}
          type="number"
          optional
          value={weight}
          onValue={setWeight}
          input={{ min: 1, max: 100_000, inputMode: 'numeric' }}
        />
      </div>
      {short && (
        <label class="tick">
          <input
            type="checkbox"
            checked={anyway}
            onChange={(event) => setAnyway(event.currentTarget.checked)}
          />
          {words.anyway}
        </label>
      )}
    </RecordForm>
  );
}
