import { useState } from 'preact/hooks';
import { momentOf } from '../api/moments.ts';
import { today } from '../words/numbers.ts';
import { when as words } from '../words/when.ts';
import { TextField } from './field.tsx';

/**
 * When it happened: now, unless another day is given. Things are often written
 * down late; the record keeps both days.
 */
export function useWhen() {
  const [day, setDay] = useState('');
  const [time, setTime] = useState('');
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
      {day && (
        <TextField
          label={words.time}
          hint={words.timeHint}
          type="time"
          optional
          value={time}
          onValue={setTime}
        />
      )}
    </details>
  );
  return { field, happenedAt: day ? { happenedAt: time ? momentOf(day, time) : day } : {} };
}
