import { useState } from 'preact/hooks';
import type { Problem } from '../api/client.ts';
import { record, type Wish } from '../api/orders.ts';
import type { FiringMore, PlaceRow } from '../api/studio.ts';
import { useMaterials } from '../api/use-materials.ts';
import { Caution } from '../parts/caution.tsx';
import { blankFault, type FaultDraft, FaultFields, faultInput, isSharp } from '../parts/fault-fields.tsx';
import { blankGrades, type GradeCounts, GradeFields, gradeInput, totalOf } from '../parts/grade-fields.tsx';
import { ProblemSaid } from '../parts/problem.tsx';
import { draw as words } from '../words/kilns.ts';
import { listText } from '../words/numbers.ts';
import { move, piece as pieceWords } from '../words/piece.ts';

interface Props {
  readonly firing: NonNullable<FiringMore['firing']>;
  readonly row: PlaceRow;
  readonly what: string;
  readonly onSent: () => void;
  readonly onBack: () => void;
}

/** Faults first, then the grade: a lot's pieces are graded by counts and part by grade. */
export function drawWishes(
  row: PlaceRow,
  firing: string,
  faults: readonly FaultDraft[],
  counts: GradeCounts,
): readonly Wish[] {
  const found = faults
    .filter((fault) => fault.kind)
    .map((fault) => ({ command: 'fault.find', input: { piece: row.piece, firing, ...faultInput(fault) } }));
  const graded =
    totalOf(counts) > 0
      ? [{ command: 'piece.grade', input: { ...gradeInput(row.piece, counts), firing } }]
      : [];
  return [...found, ...graded];
}

export function DrawFault({ firing, row, what, onSent, onBack }: Props) {
  const materials = useMaterials();
  const [faults, setFaults] = useState<readonly FaultDraft[]>([blankFault]);
  const [counts, setCounts] = useState<GradeCounts>(blankGrades);
  const [problem, setProblem] = useState<{ readonly problem: Problem; readonly part: boolean }>();
  const [missing, setMissing] = useState<string>();
  const [busy, setBusy] = useState(false);
  const bisque = firing.role === 'bisque';

  const submit = async (event: Event) => {
    event.preventDefault();
    const named = faults.filter((fault) => fault.kind);
    if (totalOf(counts) === 0 && (!bisque || named.length === 0))
      return setMissing(bisque ? words.needFault : words.needGrade);
    setMissing(undefined);
    setBusy(true);
    const said = listText(named.map((fault) => materials.name('fault', fault.kind)));
    const sentence = words.recorded(
      what,
      said,
      pieceWords.grades(counts.first, counts.second, counts.waster),
    );
    const sent = await record(drawWishes(row, firing.firing, faults, counts), sentence);
    setBusy(false);
    setProblem(sent.problem && { problem: sent.problem, part: sent.recorded });
    if (!sent.problem) onSent();
  };

  const set = (n: number) => (fault: FaultDraft) =>
    setFaults(faults.map((each, at) => (at === n ? fault : each)));
  return (
    <form onSubmit={submit}>
      {faults.map((fault, n) => (
        <section key={n} class="one-fault" aria-label={words.faultAt(n + 1)}>
          <FaultFields fault={fault} onFault={set(n)} of={row.count} />
          {faults.length > 1 && (
            <button type="button" class="plain" onClick={() => setFaults(faults.filter((_, at) => at !== n))}>
              {words.removeFault}
            </button>
          )}
        </section>
      ))}
      <p class="buttons">
        <button type="button" onClick={() => setFaults([...faults, blankFault])}>
          {words.another}
        </button>
      </p>
      <GradeFields counts={counts} onCounts={setCounts} of={row.count} />
      {bisque && <p class="soft">{words.ungradedBisque}</p>}
      <Caution lines={faults.some((fault) => isSharp(fault.kind)) ? [move.fault.sharp] : []} />
      {missing && (
        <p class="problem" role="alert">
          {missing}
        </p>
      )}
      {problem && <ProblemSaid problem={problem.problem} part={problem.part} />}
      <p class="buttons">
        <button type="submit" class="main" disabled={busy}>
          {words.record}
        </button>
        <button type="button" onClick={onBack}>
          {words.back}
        </button>
      </p>
    </form>
  );
}
