import { useState } from 'preact/hooks';
import { useMaterials } from '../api/use-materials.ts';
import { Caution } from '../parts/caution.tsx';
import { blankFault, FaultFields, faultInput, isSharp } from '../parts/fault-fields.tsx';
import { NoteField } from '../parts/field.tsx';
import { move as words } from '../words/piece.ts';
import type { MoveProps } from './move.tsx';
import { MoveForm, textOf } from './move-form.tsx';

export function Fault({ piece }: MoveProps) {
  const materials = useMaterials();
  const [fault, setFault] = useState({ ...blankFault, count: piece.count });
  const [note, setNote] = useState('');
  const input = { piece: piece.piece, ...faultInput(fault), ...textOf(note) };
  return (
    <MoveForm
      piece={piece.piece}
      submit={words.fault.submit}
      caution={<Caution lines={isSharp(fault.kind) ? [words.fault.sharp] : []} />}
      wish={() =>
        fault.kind
          ? {
              wishes: [{ command: 'fault.find', input }],
              sentence: words.fault.done(materials.name('fault', fault.kind)),
            }
          : { missing: words.fault.missing }
      }
    >
      <FaultFields fault={fault} onFault={setFault} of={piece.count} />
      <NoteField label={words.note} hint={words.noteHint} value={note} onValue={setNote} optional />
    </MoveForm>
  );
}
