import { useState } from 'preact/hooks';
import type { WareRow } from '../api/studio.ts';
import { useReport } from '../api/use-report.ts';
import { TextField } from '../parts/field.tsx';
import { item as words } from '../words/items.ts';

interface Props {
  readonly value: string;
  readonly onValue: (piece: string) => void;
}

/** A single piece of the studio, by its foot mark. */
export function PieceField({ value, onValue }: Props) {
  const [mark, setMark] = useState('');
  const asked = useReport<WareRow>(mark.trim().length >= 3 ? 'studio/ware' : undefined, {
    search: mark.trim(),
    limit: '5',
  });
  const found = asked.answer?.rows.find(
    (row) => row.mark?.toUpperCase() === mark.trim().toUpperCase() && row.count === 1,
  );
  if (found && found.piece !== value) queueMicrotask(() => onValue(found.piece));
  const none = asked.answer && !asked.waiting && mark.trim().length >= 3 && !found;
  return (
    <TextField
      label={words.piece}
      hint={
        found
          ? `${found.form ?? ''} ${found.glazeNames.join(', ')}`.trim() || words.pieceHint
          : words.pieceHint
      }
      wrong={none ? words.noPiece : undefined}
      value={mark}
      onValue={setMark}
      input={{ autocomplete: 'off', autocapitalize: 'characters', spellcheck: false }}
    />
  );
}
