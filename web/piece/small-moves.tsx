/** Moves that ask one question. */
import { useState } from 'preact/hooks';
import { nameText } from '../api/studio.ts';
import { usePeople } from '../api/use-materials.ts';
import { Choices } from '../parts/choices.tsx';
import { CountField } from '../parts/count-field.tsx';
import { NoteField, SelectField } from '../parts/field.tsx';
import { MoneyField, readMoney } from '../parts/money-field.tsx';
import { habits } from '../words/numbers.ts';
import { move as words } from '../words/piece.ts';
import { named, ownerNames, stageNames } from '../words/trade.ts';
import { begin } from '../words/ware.ts';
import type { MoveProps } from './move.tsx';
import { countOf, MoveForm, SomeOf, textOf } from './move-form.tsx';

const small = words.small;

export function Dry({ piece }: MoveProps) {
  const stages = (['leather-hard', 'bone-dry'] as const).filter((stage) => stage !== piece.stage);
  const [stage, setStage] = useState<string>(stages[0]!);
  const [some, setSome] = useState(piece.count);
  const name = stageNames[stage as 'bone-dry'];
  const input = { piece: piece.piece, stage, ...countOf(some, piece.count) };
  return (
    <MoveForm
      piece={piece.piece}
      submit={words.dry.submit}
      wish={() => ({ wishes: [{ command: 'piece.move-on', input }], sentence: words.dry.done(name) })}
    >
      <Choices
        legend={words.dry.stage}
        value={stage}
        onValue={setStage}
        options={stages.map((value) => ({ value, label: stageNames[value] }))}
      />
      <SomeOf of={piece.count} value={some} onValue={setSome} />
    </MoveForm>
  );
}

export function Note({ piece }: MoveProps) {
  const [note, setNote] = useState('');
  return (
    <MoveForm
      piece={piece.piece}
      submit={small.noteSubmit}
      wish={() =>
        note.trim()
          ? {
              wishes: [{ command: 'piece.note', input: { piece: piece.piece, ...textOf(note) } }],
              sentence: small.noteDone,
            }
          : { missing: small.noteMissing }
      }
    >
      <NoteField label={words.note} hint={words.noteHint} value={note} onValue={setNote} />
    </MoveForm>
  );
}

const moneyIn = (amount: number | undefined): string => (amount === undefined ? '' : String(amount / 100));

export function Price({ piece }: MoveProps) {
  const same = (currency: string | undefined) => currency === habits.value.currency;
  const [first, setFirst] = useState(same(piece.price?.currency) ? moneyIn(piece.price?.amount) : '');
  const [second, setSecond] = useState(
    same(piece.secondPrice?.currency) ? moneyIn(piece.secondPrice?.amount) : '',
  );
  const price = readMoney(first);
  const secondPrice = readMoney(second);
  const input = { piece: piece.piece, ...(price ? { price } : {}), ...(secondPrice ? { secondPrice } : {}) };
  return (
    <MoveForm
      piece={piece.piece}
      submit={small.priceSubmit}
      wish={() =>
        price || secondPrice
          ? { wishes: [{ command: 'piece.price', input }], sentence: small.priceDone }
          : { missing: begin.wrongPrice }
      }
    >
      <MoneyField label={small.price} value={first} onValue={setFirst} />
      <MoneyField label={small.secondPrice} value={second} onValue={setSecond} />
    </MoveForm>
  );
}

export function Recount({ piece }: MoveProps) {
  const [count, setCount] = useState(piece.count);
  const [why, setWhy] = useState('');
  const input = { piece: piece.piece, count, ...textOf(why, 'why') };
  return (
    <MoveForm
      piece={piece.piece}
      submit={small.recountSubmit}
      wish={() => ({ wishes: [{ command: 'piece.recount', input }], sentence: small.recountDone(count) })}
    >
      <CountField label={small.recount} value={count} onValue={setCount} min={1} />
      <NoteField label={small.recountWhy} value={why} onValue={setWhy} optional />
    </MoveForm>
  );
}

export function Owner({ piece }: MoveProps) {
  const people = usePeople().filter((person) => !person.forgotten);
  const [kind, setKind] = useState<string>(piece.owner.kind);
  const [person, setPerson] = useState(piece.owner.kind === 'own' ? '' : piece.owner.person);
  const owner = kind === 'own' ? { kind } : { kind, person };
  return (
    <MoveForm
      piece={piece.piece}
      submit={small.ownerSubmit}
      wish={() =>
        kind === 'own' || person
          ? {
              wishes: [{ command: 'piece.change-owner', input: { piece: piece.piece, owner } }],
              sentence: small.ownerDone(named(ownerNames, kind)),
            }
          : { missing: begin.personNone }
      }
    >
      <Choices
        legend={begin.owner}
        value={kind}
        onValue={setKind}
        options={Object.entries(ownerNames).map(([value, label]) => ({ value, label }))}
      />
      {kind !== 'own' && (
        <SelectField
          label={begin.person}
          hint={begin.personHint}
          value={person}
          onValue={setPerson}
          options={people.map((each) => ({ value: each.person, label: nameText(each.name) ?? each.person }))}
          none={begin.personNone}
        />
      )}
    </MoveForm>
  );
}
