import { useState } from 'preact/hooks';
import { blankGrades, type GradeCounts, GradeFields, gradeInput, totalOf } from '../parts/grade-fields.tsx';
import { MoneyField, readMoney } from '../parts/money-field.tsx';
import { piece as pieceWords, move as words } from '../words/piece.ts';
import type { MoveProps } from './move.tsx';
import { MoveForm } from './move-form.tsx';

export function GradeMove({ piece }: MoveProps) {
  const [counts, setCounts] = useState<GradeCounts>(blankGrades);
  const [first, setFirst] = useState('');
  const [second, setSecond] = useState('');
  const price = readMoney(first);
  const secondPrice = readMoney(second);
  const input = {
    ...gradeInput(piece.piece, counts),
    ...(price && counts.first ? { price } : {}),
    ...(secondPrice && counts.second ? { secondPrice } : {}),
  };
  return (
    <MoveForm
      piece={piece.piece}
      submit={words.grade.submit}
      wish={() =>
        totalOf(counts) > 0
          ? {
              wishes: [{ command: 'piece.grade', input }],
              sentence: words.grade.done(pieceWords.grades(counts.first, counts.second, counts.waster)),
            }
          : { missing: words.grade.none }
      }
    >
      <GradeFields counts={counts} onCounts={setCounts} of={piece.count} />
      {counts.first > 0 && <MoneyField label={words.grade.price} value={first} onValue={setFirst} />}
      {counts.second > 0 && <MoneyField label={words.grade.secondPrice} value={second} onValue={setSecond} />}
    </MoveForm>
  );
}
