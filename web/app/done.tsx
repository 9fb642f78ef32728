import { useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import type { Problem } from '../api/client.ts';
import { done, undo } from '../api/orders.ts';
import { ProblemSaid } from '../parts/problem.tsx';
import { shell } from '../words/shell.ts';

/** What was just done, with Undo, for as long as the screen stays. */
export function DoneLine() {
  const { path } = useLocation();
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<Problem>();
  const last = done.value.filter((each) => each.where === path).at(-1);
  if (!last) return null;
  const takeBack = async () => {
    setBusy(true);
    setProblem((await undo(last)).problem);
    setBusy(false);
  };
  return (
    <div class="done no-paper">
      {problem ? <ProblemSaid problem={problem} /> : <p>{last.sentence}</p>}
      <button type="button" disabled={busy} onClick={takeBack}>
        {shell.undo}
      </button>
    </div>
  );
}
