import { SelectField } from '../parts/field.tsx';
import { handouts as words } from '../words/handouts.ts';
import { findPaper, type PaperRef, usePapers } from './of-paper.ts';

interface Props {
  readonly paper: PaperRef;
  readonly size: string;
  readonly onSize: (size: string) => void;
}

/** On which sheets a run was printed; nothing where there is no choice. */
export function PrintSize({ paper, size, onSize }: Props) {
  const sizes = findPaper(usePapers().answer?.papers, paper)?.sizes ?? [];
  if (sizes.length === 0) return null;
  return (
    <SelectField
      label={words.runOn}
      value={size}
      onValue={onSize}
      options={sizes.map((value) => ({ value, label: value }))}
    />
  );
}
