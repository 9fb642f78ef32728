import type { ComponentChildren } from 'preact';
import { useId } from 'preact/hooks';
import { shell } from '../words/shell.ts';

interface FieldProps {
  readonly label: string;
  readonly hint?: string;
  readonly wrong?: string;
  readonly optional?: boolean;
}

type Attributes = { id: string; 'aria-describedby'?: string; 'aria-invalid'?: 'true' };

/** A label, what it is about, and what is wrong with it, tied to the control for a screen reader. */
export function Field(
  props: FieldProps & { readonly children: (attributes: Attributes) => ComponentChildren },
) {
  const id = useId();
  const described = [props.hint && `${id}-hint`, props.wrong && `${id}-wrong`].filter(Boolean).join(' ');
  return (
    <div class="field">
      <label for={id}>
        {props.label}
        {props.optional && <span class="soft small"> ({shell.optional})</span>}
      </label>
      {props.hint && (
        <p class="hint" id={`${id}-hint`}>
          {props.hint}
        </p>
      )}
      {props.children({
        id,
        ...(described ? { 'aria-describedby': described } : {}),
        ...(props.wrong ? { 'aria-invalid': 'true' } : {}),
      })}
      {props.wrong && (
        <p class="wrong" id={`${id}-wrong`}>
          {props.wrong}
        </p>
      )}
    </div>
  );
}

interface TextProps extends FieldProps {
  readonly value: string;
  readonly onValue: (value: string) => void;
  readonly type?: 'text' | 'password' | 'search' | 'date' | 'number' | 'datetime-local' | 'time';
  readonly input?: Readonly<Record<string, unknown>>;
}

export function TextField({ value, onValue, type = 'text', input, ...field }: TextProps) {
  const onInput = (event: Event) => onValue((event.currentTarget as HTMLInputElement).value);
  return (
    <Field {...field}>
      {(attributes) => <input {...({ ...input, ...attributes, type, value, onInput } as object)} />}
    </Field>
  );
}

export interface Option {
  readonly value: string;
  readonly label: string;
}

interface SelectProps extends FieldProps {
  readonly value: string;
  readonly onValue: (value: string) => void;
  readonly options: readonly Option[];
  /** What the empty choice says. */
  readonly none?: string;
}

export const SelectField = ({ value, onValue, options, none, ...field }: SelectProps) => (
  <Field {...field}>
    {(attributes) => (
      <select {...attributes} value={value} onChange={(event) => onValue(event.currentTarget.value)}>
        {none !== undefined && <option value="">{none}</option>}
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.label}
          </option>
        ))}
      </select>
    )}
  </Field>
);

export const NoteField = ({
  value,
  onValue,
  ...field
}: FieldProps & { value: string; onValue: (value: string) => void }) => (
  <Field {...field}>
    {(attributes) => (
      <textarea
        {...attributes}
        rows={2}
        value={value}
        onInput={(event) => onValue(event.currentTarget.value)}
      />
    )}
  </Field>
);
