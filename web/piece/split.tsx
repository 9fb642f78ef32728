import { useState } from 'preact/hooks';
import { CountField } from '../parts/count-field.tsx';
import { NoteField, TextField } from '../parts/field.tsx';
import { countText, listText } from '../words/numbers.ts';
import { move as words } from '../words/piece.ts';
import type { MoveProps } from './move.tsx';
import { MoveForm, textOf } from './move-form.tsx';

interface Part {
  readonly count: number;
  readonly mark: string;
}

/** At least one stays behind; no part can take more than is left. */
export function Split({ piece }: MoveProps) {
  const [parts, setParts] = useState<readonly Part[]>([{ count: 1, mark: '' }]);
  const [why, setWhy] = useState('');
  const taken = parts.reduce((sum, part) => sum + part.count, 0);
  const stays = piece.count - taken;
  const set = (n: number, change: Partial<Part>) =>
    setParts(parts.map((part, at) => (at === n ? { ...part, ...change } : part)));
  const input = {
    piece: piece.piece,
    into: parts.map((part) => ({
      count: part.count,
      ...(part.mark.trim() ? { mark: part.mark.trim() } : {}),
    })),
    ...textOf(why, 'why'),
  };
  const sentence = words.split.done(listText(parts.map((part) => countText(part.count))));
  return (
    <MoveForm
      piece={piece.piece}
      submit={words.split.submit}
      wish={() => ({ wishes: [{ command: 'lot.split', input }], sentence })}
    >
      <p>{words.split.hint(piece.count)}</p>
      {parts.map((part, n) => (
        <div key={n} class="side-by-side">
          <CountField
            label={words.split.part(n + 1)}
            value={part.count}
            min={1}
            max={part.count + stays - 1}
            onValue={(count) => set(n, { count })}
          />
          <TextField
            label={words.split.mark}
            value={part.mark}
            onValue={(mark) => set(n, { mark })}
            input={{ maxLength: 24, autocomplete: 'off' }}
            optional
          />
        </div>
      ))}
      <p role="status">{words.split.stays(stays)}</p>
      {stays > 1 && (
        <p class="buttons">
          <button type="button" onClick={() => setParts([...parts, { count: 1, mark: '' }])}>
            {words.split.another}
          </button>
        </p>
      )}
      <NoteField label={words.small.recountWhy} value={why} onValue={setWhy} optional />
    </MoveForm>
  );
}
