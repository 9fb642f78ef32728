import { useState } from 'preact/hooks';
import type { PieceRow } from '../api/studio.ts';
import { useMaterials } from '../api/use-materials.ts';
import { RepairMark } from '../drawings/repair-mark.tsx';
import { Caution } from '../parts/caution.tsx';
import { Choices } from '../parts/choices.tsx';
import { NoteField, SelectField } from '../parts/field.tsx';
import { move as words } from '../words/piece.ts';
import type { MoveProps } from './move.tsx';
import { countOf, MoveForm, SomeOf, textOf } from './move-form.tsx';

const mend = words.mend;
/** Said in the place of a repair: it is left as it is. */
const NONE = 'none';

/** What can hurt in a repair, and whose say it is. */
export function cautions(method: string, piece: Pick<PieceRow, 'owner'>): readonly string[] {
  return [
    ...(piece.owner.kind === 'commission' ? [mend.ask] : []),
    ...(method === 'grind' || method === 'refire-inverted' ? [mend.grind] : []),
    ...(method === 'fill-and-reglaze' || method === 'reglaze-over' ? [mend.damp, mend.film] : []),
    ...(method === 'refire-inverted' ? [mend.inverted] : []),
    ...(method === 'cold-finish' ? [mend.cold] : []),
  ];
}

function Repair({ piece, command }: MoveProps & { readonly command: 'repair.decide' | 'repair.do' }) {
  const materials = useMaterials();
  const open =
    command === 'repair.do' ? piece.repairs.findLast((repair) => repair.state === 'decided') : undefined;
  const [method, setMethod] = useState(open?.method ?? '');
  const [fault, setFault] = useState(open?.fault ?? piece.faults.at(-1)?.kind ?? '');
  const [some, setSome] = useState(piece.count);
  const [note, setNote] = useState('');
  const deciding = command === 'repair.decide';
  const input = {
    piece: piece.piece,
    method,
    ...(fault ? { fault } : {}),
    ...countOf(some, piece.count),
    ...textOf(note),
  };
  const name = materials.name('repair', method);
  const none = deciding && piece.stage !== 'bisque-fired' && piece.stage !== 'glaze-fired';
  const options = [...materials.of('repair'), ...(none ? [{ value: NONE, label: mend.none }] : [])];
  const declined = { piece: piece.piece, ...countOf(some, piece.count) };
  return (
    <MoveForm
      piece={piece.piece}
      submit={deciding ? mend.decideSubmit : mend.doSubmit}
      caution={<Caution lines={cautions(method, piece)} />}
      wish={() =>
        method === NONE
          ? { wishes: [{ command: 'repair.decline', input: declined }], sentence: mend.declined }
          : method
            ? { wishes: [{ command, input }], sentence: deciding ? mend.decided(name) : mend.done(name) }
            : { missing: mend.missing }
      }
    >
      <Choices
        legend={mend.method}
        value={method}
        onValue={setMethod}
        options={options.map((option) => ({ ...option, mark: <RepairMark method={option.value} /> }))}
      />
      {method !== NONE && (
        <SelectField
          label={mend.fault}
          value={fault}
          onValue={setFault}
          options={materials.of('fault')}
          none={mend.faultNone}
        />
      )}
      <SomeOf of={piece.count} value={some} onValue={setSome} />
      {method !== NONE && (
        <NoteField label={words.note} hint={words.noteHint} value={note} onValue={setNote} optional />
      )}
    </MoveForm>
  );
}

export const Decide = ({ piece }: MoveProps) => <Repair piece={piece} command="repair.decide" />;
export const Mend = ({ piece }: MoveProps) => <Repair piece={piece} command="repair.do" />;
