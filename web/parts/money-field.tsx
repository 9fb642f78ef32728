import { habits, minorUnits } from '../words/numbers.ts';
import { begin as words } from '../words/ware.ts';
import { TextField } from './field.tsx';

interface Props {
  readonly label: string;
  readonly value: string;
  readonly onValue: (value: string) => void;
}

export const readMoney = (text: string): { amount: number; currency: string } | undefined => {
  const amount = minorUnits(text);
  return amount === undefined ? undefined : { amount, currency: habits.value.currency };
};

/** An amount in the studio's money. */
export const MoneyField = ({ label, value, onValue }: Props) => (
  <TextField
    label={label}
    hint={words.priceHint(habits.value.currency)}
    wrong={value.trim() && !readMoney(value) ? words.wrongPrice : undefined}
    value={value}
    onValue={onValue}
    input={{ inputMode: 'decimal', autocomplete: 'off' }}
  />
);
