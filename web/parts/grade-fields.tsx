import type { Grade } from '../../server/contract/trade.ts';
import { move as words } from '../words/piece.ts';
import { gradeNames } from '../words/trade.ts';
import { Choices } from './choices.tsx';
import { CountField } from './count-field.tsx';

export type GradeCounts = Readonly<Record<Grade, number>>;
export const blankGrades: GradeCounts = { first: 0, second: 0, waster: 0 };
export const totalOf = (counts: GradeCounts): number => counts.first + counts.second + counts.waster;

/** What `piece.grade` asks for: only the grades that were given. */
export const gradeInput = (piece: string, counts: GradeCounts) => ({
  piece,
  ...Object.fromEntries(Object.entries(counts).filter(([, n]) => n > 0)),
});

interface Props {
  readonly counts: GradeCounts;
  readonly onCounts: (counts: GradeCounts) => void;
  readonly of: number;
}

const LABELS: Readonly<Record<Grade, string>> = {
  first: words.grade.firsts,
  second: words.grade.seconds,
  waster: words.grade.wasters,
};
const GRADES: readonly Grade[] = ['first', 'second', 'waster'];

/** One grade for a single piece; for a lot, how many of each. No count can go past what is there. */
export function GradeFields({ counts, onCounts, of }: Props) {
  if (of === 1)
    return (
      <Choices
        legend={words.grade.title}
        value={GRADES.find((grade) => counts[grade] > 0)}
        onValue={(grade) => onCounts({ ...blankGrades, [grade]: 1 })}
        options={GRADES.map((value) => ({ value, label: gradeNames[value] }))}
      />
    );
  const rest = of - totalOf(counts);
  return (
    <fieldset>
      <legend>{words.grade.title}</legend>
      <p class="hint">{words.grade.hint(of)}</p>
      <div class="side-by-side">
        {GRADES.map((grade) => (
          <CountField
            key={grade}
            label={LABELS[grade]}
            value={counts[grade]}
            max={counts[grade] + rest}
            onValue={(n) => onCounts({ ...counts, [grade]: n })}
          />
        ))}
      </div>
      <p role="status">{words.grade.left(rest)}</p>
    </fieldset>
  );
}
