import { useState } from 'preact/hooks';
import { SelectField, TextField } from '../parts/field.tsx';
import { templates as words } from '../words/templates.ts';

const SHEETS = ['A4', 'A3', 'Letter', 'Tabloid'] as const;
const ROLL = 'roll';

interface Props {
  /** Whose paper it is, where several stand on one page. */
  readonly of?: string;
  /** 'A4', 'roll 610'. */
  readonly paper: string;
  readonly onPaper: (paper: string) => void;
}

/** A sheet by its name, or a roll by its width. */
export function PaperChoice({ of, paper, onPaper }: Props) {
  const [width, setWidth] = useState(paper.startsWith(ROLL) ? paper.slice(ROLL.length + 1) : '610');
  const roll = paper.startsWith(ROLL);
  const named = (label: string) => (of === undefined ? label : `${label}: ${of}`);
  return (
    <>
      <SelectField
        label={named(words.paper)}
        value={roll ? ROLL : paper}
        onValue={(to) => onPaper(to === ROLL ? `${ROLL} ${width}` : to)}
        options={[...SHEETS.map((value) => ({ value, label: value })), { value: ROLL, label: words.roll }]}
      />
      {roll && (
        <TextField
          label={named(words.rollWidth)}
          type="number"
          value={width}
          onValue={(to) => {
            setWidth(to);
            onPaper(`${ROLL} ${to}`);
          }}
          input={{ min: 200, max: 2000, step: 'any', inputMode: 'decimal' }}
        />
      )}
    </>
  );
}
