import { useReport } from '../api/use-report.ts';
import { CountField } from '../parts/count-field.tsx';
import { TextField } from '../parts/field.tsx';
import { amountText, habits, minorUnits } from '../words/numbers.ts';
import { order, newOrder as words } from '../words/orders.ts';
import type { ItemRow } from './types.ts';

export interface DraftLine {
  readonly item: string;
  readonly quantity: number;
  readonly price: string;
  readonly currency: string;
}

export const blankLine = (currency = habits.value.currency): DraftLine => ({
  item: '',
  quantity: 1,
  price: '',
  currency,
});

/** Lines as the command takes them, or what is missing. */
export function inputOf(
  lines: readonly DraftLine[],
): { readonly missing: string } | { readonly lines: readonly object[] } {
  const asked = lines.filter(({ item }) => item.trim());
  if (asked.length === 0) return { missing: words.missingItem };
  const wrong = asked.some(
    ({ price, currency }) => price.trim() && minorUnits(price, currency || undefined) === undefined,
  );
  if (wrong) return { missing: order.wrongAmount };
  return {
    lines: asked.map(({ item, quantity, price, currency }) => ({
      item: item.trim(),
      quantity,
      ...(price.trim()
        ? {
            price: {
              amount: minorUnits(price, currency || undefined)!,
              currency: currency || habits.value.currency,
            },
          }
        : {}),
    })),
  };
}

interface Props {
  readonly lines: readonly DraftLine[];
  readonly onLines: (lines: readonly DraftLine[]) => void;
}

/** What is ordered, line by line; a known item brings its price. */
export function LineFields({ lines, onLines }: Props) {
  const items = useReport<ItemRow>('shop-orders/items').answer?.rows ?? [];
  const set = (at: number, change: Partial<DraftLine>) =>
    onLines(lines.map((line, n) => (n === at ? { ...line, ...change } : line)));
  const named = (at: number, item: string) => {
    const known = items.find(({ name }) => name === item);
    const free = lines[at]!.price === '';
    set(at, known && free && known.price !== null ? { item, ...priceOf(known) } : { item });
  };
  return (
    <fieldset>
      <legend>{words.lines}</legend>
      <datalist id="shop-items">
        {items.map(({ item, name }) => (
          <option key={item} value={name} />
        ))}
      </datalist>
      {lines.map((line, at) => (
        <div key={at} class="side-by-side">
          <TextField
            label={words.item}
            value={line.item}
            onValue={(item) => named(at, item)}
            input={{ list: 'shop-items', autocomplete: 'off', maxLength: 120 }}
          />
          <CountField
            label={words.quantity}
            value={line.quantity}
            min={1}
            onValue={(quantity) => set(at, { quantity })}
          />
          <TextField
            label={`${words.price} (${line.currency})`}
            value={line.price}
            optional
            onValue={(price) => set(at, { price })}
            input={{ inputMode: 'decimal', autocomplete: 'off' }}
          />
          {lines.length > 1 && (
            <p class="buttons">
              <button type="button" onClick={() => onLines(lines.filter((_, n) => n !== at))}>
                {words.remove(at + 1)}
              </button>
            </p>
          )}
        </div>
      ))}
      <p class="buttons">
        <button type="button" onClick={() => onLines([...lines, blankLine(lines.at(-1)?.currency)])}>
          {words.another}
        </button>
      </p>
    </fieldset>
  );
}

const priceOf = ({ price, currency }: ItemRow) => ({
  price: amountText(price!, currency!),
  currency: currency!,
});
