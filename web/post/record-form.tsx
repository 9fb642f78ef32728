import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import type { Problem } from '../api/client.ts';
import { record, type Wish } from '../api/orders.ts';
import { ProblemSaid } from '../parts/problem.tsx';
import { useWhen } from '../parts/when.tsx';

type Wished =
  | { readonly wishes: readonly Omit<Wish, 'happenedAt'>[]; readonly sentence: string }
  | { readonly missing: string };

interface Props {
  readonly submit: string;
  readonly wish: () => Wished;
  readonly children?: ComponentChildren;
  /** What is shown with a refusal, such as a way to go on all the same. */
  readonly instead?: (problem: Problem) => ComponentChildren;
  /** Address of the screen that follows; the present one when left out. */
  readonly then?: string;
  readonly onDone?: () => void;
  /** Without a field for the day: it is now. */
  readonly now?: boolean;
}

/** Fields, when it happened, and the one button that records it; what is refused stays to be put right. */
export function RecordForm({ submit, wish, children, instead, then, onDone, now = false }: Props) {
  const { route } = useLocation();
  const when = useWhen();
  const [problem, setProblem] = useState<Problem>();
  const [missing, setMissing] = useState<string>();
  const [busy, setBusy] = useState(false);
  const onSubmit = async (event: Event) => {
    event.preventDefault();
    const wished = wish();
    if ('missing' in wished) {
      setProblem(undefined);
      return setMissing(wished.missing);
    }
    setMissing(undefined);
    setBusy(true);
    const at = now ? {} : when.happenedAt;
    const sent = await record(
      wished.wishes.map((each) => ({ ...each, ...at })),
      wished.sentence,
      then,
    );
    setBusy(false);
    setProblem(sent.problem);
    if (sent.problem) return;
    onDone?.();
    if (then) route(then);
  };
  return (
    <form onSubmit={onSubmit}>
      {children}
      {!now && when.field}
      {missing && (
        <p class="problem" role="alert">
          {missing}
        </p>
      )}
      {problem && <ProblemSaid problem={problem} />}
      {problem && instead?.(problem)}
      <p class="buttons">
        <button type="submit" class="main" disabled={busy}>
          {submit}
        </button>
      </p>
    </form>
  );
}

/** One button that records one thing. */
export function Do({
  label,
  wish,
  sentence,
  then,
  main = false,
}: {
  readonly label: string;
  readonly wish: Omit<Wish, 'happenedAt'>;
  readonly sentence: string;
  readonly then?: string;
  readonly main?: boolean;
}) {
  const { route } = useLocation();
  const [problem, setProblem] = useState<Problem>();
  const act = async () => {
    const sent = await record([wish], sentence, then);
    setProblem(sent.problem);
    if (!sent.problem && then) route(then);
  };
  return (
    <>
      {problem && <ProblemSaid problem={problem} />}
      <button type="button" class={main ? 'main' : undefined} onClick={act}>
        {label}
      </button>
    </>
  );
}
