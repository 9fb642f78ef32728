import { useState } from 'preact/hooks';
import { nameText } from '../api/studio.ts';
import { move as words } from '../words/piece.ts';
import { named, ownerNames } from '../words/trade.ts';
import type { MoveProps } from './move.tsx';
import { countOf, MoveForm, SomeOf } from './move-form.tsx';

/** A client or student is told how it came out; a client is asked before a flawed piece is changed. */
export function Tell({ piece }: MoveProps) {
  const [some, setSome] = useState(piece.count);
  const input = { piece: piece.piece, ...countOf(some, piece.count) };
  const name = nameText(piece.ownerName) ?? words.tell.nobody;
  const grade = piece.gradings.at(-1)?.grade;
  return (
    <MoveForm
      piece={piece.piece}
      submit={words.tell.submit}
      wish={() => ({ wishes: [{ command: 'piece.tell-owner', input }], sentence: words.tell.done })}
    >
      <p>
        <strong>{words.tell.whose(name, named(ownerNames, piece.owner.kind))}</strong>
      </p>
      {grade && <p class="prose">{grade === 'first' ? words.tell.good : words.tell.flawed}</p>}
      <SomeOf of={piece.count} value={some} onValue={setSome} />
    </MoveForm>
  );
}
