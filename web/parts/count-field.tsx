import { count as words } from '../words/count.ts';
import { Field } from './field.tsx';

interface Props {
  readonly label: string;
  readonly hint?: string;
  readonly wrong?: string;
  readonly value: number;
  readonly onValue: (value: number) => void;
  readonly min?: number;
  readonly max?: number;
}

/** A whole number with a large key on either side; it can also be typed. */
export function CountField({ label, hint, wrong, value, onValue, min = 0, max = 100_000 }: Props) {
  const within = (n: number) => Math.min(max, Math.max(min, n));
  return (
    <Field label={label} hint={hint} wrong={wrong}>
      {(attributes) => (
        <div class="count">
          <button
            type="button"
            aria-label={words.fewer(label)}
            disabled={value <= min}
            onClick={() => onValue(within(value - 1))}
          >
            −
          </button>
          <input
            {...attributes}
            type="number"
            inputMode="numeric"
            min={min}
            max={max}
            value={value}
            onFocus={(event) => event.currentTarget.select()}
            onInput={(event) => {
              const typed = event.currentTarget.valueAsNumber;
              if (Number.isInteger(typed)) onValue(within(typed));
            }}
          />
          <button
            type="button"
            aria-label={words.more(label)}
            disabled={value >= max}
            onClick={() => onValue(within(value + 1))}
          >
            +
          </button>
        </div>
      )}
    </Field>
  );
}
