import { useState } from 'preact/hooks';
import { LEAVINGS } from '../../server/contract/trade.ts';
import { nameText } from '../api/studio.ts';
import { usePeople } from '../api/use-materials.ts';
import { Caution } from '../parts/caution.tsx';
import { Choices } from '../parts/choices.tsx';
import { isSharp } from '../parts/fault-fields.tsx';
import { NoteField, SelectField } from '../parts/field.tsx';
import { MoneyField, readMoney } from '../parts/money-field.tsx';
import { move as words } from '../words/piece.ts';
import { leavingNames, named } from '../words/trade.ts';
import type { MoveProps } from './move.tsx';
import { countOf, MoveForm, SomeOf, textOf } from './move-form.tsx';

const handed = (how: string): boolean => how !== '' && how !== 'broken-up' && how !== 'lost';

export function Leave({ piece }: MoveProps) {
  const people = usePeople().filter((person) => !person.forgotten);
  const [how, setHow] = useState('');
  const [to, setTo] = useState(piece.owner.kind === 'own' ? '' : piece.owner.person);
  const [some, setSome] = useState(piece.count);
  const [amount, setAmount] = useState('');
  const [note, setNote] = useState('');
  const price = readMoney(amount);
  const input = {
    piece: piece.piece,
    how,
    ...(to && handed(how) ? { to } : {}),
    ...(price && (how === 'sold' || how === 'posted') ? { price } : {}),
    ...countOf(some, piece.count),
    ...textOf(note),
  };
  const sharp = handed(how) && piece.faults.some((fault) => isSharp(fault.kind));
  return (
    <MoveForm
      piece={piece.piece}
      submit={words.leave.submit}
      caution={<Caution lines={sharp ? [words.leave.sharp] : []} />}
      wish={() =>
        how
          ? {
              wishes: [{ command: 'piece.leave', input }],
              sentence: words.leave.done(named(leavingNames, how)),
            }
          : { missing: words.leave.missing }
      }
    >
      <Choices
        legend={words.leave.how}
        value={how}
        onValue={setHow}
        options={LEAVINGS.map((value) => ({ value, label: named(leavingNames, value) }))}
      />
      <SomeOf of={piece.count} value={some} onValue={setSome} />
      {(how === 'sold' || how === 'posted') && (
        <MoneyField label={words.leave.price} value={amount} onValue={setAmount} />
      )}
      {handed(how) && people.length > 0 && (
        <SelectField
          label={words.leave.to}
          value={to}
          onValue={setTo}
          options={people.map((person) => ({
            value: person.person,
            label: nameText(person.name) ?? person.person,
          }))}
          none={words.leave.toNone}
        />
      )}
      <NoteField label={words.note} hint={words.noteHint} value={note} onValue={setNote} optional />
    </MoveForm>
  );
}

export function Return({ piece }: MoveProps) {
  const [from, setFrom] = useState('owner');
  const [some, setSome] = useState(piece.count);
  const [note, setNote] = useState('');
  const input = { piece: piece.piece, from, ...countOf(some, piece.count), ...textOf(note) };
  const places = (['post', 'gallery', 'owner'] as const).map((value) => ({
    value,
    label: words.return[value],
  }));
  return (
    <MoveForm
      piece={piece.piece}
      submit={words.return.submit}
      wish={() => ({ wishes: [{ command: 'piece.return', input }], sentence: words.return.done })}
    >
      <Choices legend={words.return.from} value={from} onValue={setFrom} options={places} />
      <SomeOf of={piece.count} value={some} onValue={setSome} />
      <NoteField label={words.note} hint={words.noteHint} value={note} onValue={setNote} optional />
    </MoveForm>
  );
}
