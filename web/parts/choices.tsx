import type { ComponentChildren } from 'preact';
import { useId } from 'preact/hooks';
import type { Option } from './field.tsx';

interface Props {
  readonly legend: string;
  readonly hint?: string;
  readonly value: string | undefined;
  readonly onValue: (value: string) => void;
  readonly options: readonly (Option & { readonly disabled?: boolean; readonly mark?: ComponentChildren })[];
}

/** One of a few, each a target for a whole finger. */
export function Choices({ legend, hint, value, onValue, options }: Props) {
  const name = useId();
  return (
    <fieldset>
      <legend>{legend}</legend>
      {hint && <p class="hint">{hint}</p>}
      <div class="choices">
        {options.map((option) => (
          <label key={option.value}>
            <input
              type="radio"
              name={name}
              value={option.value}
              checked={value === option.value}
              disabled={option.disabled}
              onChange={() => onValue(option.value)}
            />
            {option.mark}
            {option.label}
          </label>
        ))}
      </div>
    </fieldset>
  );
}

interface ManyProps {
  readonly legend: string;
  readonly hint?: string;
  readonly values: readonly string[];
  readonly onValues: (values: readonly string[]) => void;
  readonly options: readonly Option[];
}

/** Any of a few. */
export const Several = ({ legend, hint, values, onValues, options }: ManyProps) => (
  <fieldset>
    <legend>{legend}</legend>
    {hint && <p class="hint">{hint}</p>}
    <div class="choices">
      {options.map((option) => (
        <label key={option.value}>
          <input
            type="checkbox"
            checked={values.includes(option.value)}
            onChange={(event) =>
              onValues(
                event.currentTarget.checked
                  ? [...values, option.value]
                  : values.filter((value) => value !== option.value),
              )
            }
          />
          {option.label}
        </label>
      ))}
    </div>
  </fieldset>
);
