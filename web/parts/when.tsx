import { useState } from 'preact/hooks';
import { today } from '../words/numbers.ts';
import { when as words } from '../words/when.ts';
import { TextField } from './field.tsx';

/**
 * When it happened: now, unless another day is given. Things are often written
 * down late; the record keeps both days.
 */
export function useWhen() {
  const [day, setDay] = useState('');
  const field = (
    <details>
      <summary>{day ? words.on(day) : words.now}</summary>
      <TextField
        label={words.day}
        hint={words.hint}
        type="date"
        value={day}
        onValue={setDay}
        input={{ max: today() }}
      />
    </details>
  );
  return { field, happenedAt: day ? { happenedAt: day } : {} };
}
