import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import type { Problem } from '../api/client.ts';
import { record, type Wish } from '../api/orders.ts';
import { CountField } from '../parts/count-field.tsx';
import { ProblemSaid } from '../parts/problem.tsx';
import { useWhen } from '../parts/when.tsx';
import { move as words } from '../words/piece.ts';

interface Props {
  readonly piece: string;
  readonly submit: string;
  /** What is recorded, and the sentence for it; or what is missing. */
  readonly wish: () =>
    | { readonly wishes: readonly Omit<Wish, 'happenedAt'>[]; readonly sentence: string }
    | { readonly missing: string };
  readonly children: ComponentChildren;
  readonly caution?: ComponentChildren;
}

/** The frame of every move: its fields, when it happened, and the one button that records it. */
export function MoveForm({ piece, submit, wish, children, caution }: Props) {
  const { route } = useLocation();
  const [problem, setProblem] = useState<Problem>();
  const [missing, setMissing] = useState<string>();
  const [busy, setBusy] = useState(false);
  const when = useWhen();
  const onSubmit = async (event: Event) => {
    event.preventDefault();
    const wished = wish();
    if ('missing' in wished) return setMissing(wished.missing);
    setMissing(undefined);
    setBusy(true);
    const where = `/ware/${encodeURIComponent(piece)}`;
    const sent = await record(
      wished.wishes.map((each) => ({ ...each, ...when.happenedAt })),
      wished.sentence,
      where,
    );
    setBusy(false);
    setProblem(sent.problem);
    if (!sent.problem) route(where);
  };
  return (
    <form onSubmit={onSubmit}>
      {children}
      {when.field}
      {caution}
      {missing && (
        <p class="problem" role="alert">
          {missing}
        </p>
      )}
      {problem && <ProblemSaid problem={problem} />}
      <p class="buttons">
        <button type="submit" class="main" disabled={busy}>
          {submit}
        </button>
      </p>
    </form>
  );
}

/** How many of a lot; nothing to ask of a single piece. */
export const SomeOf = ({
  of,
  value,
  onValue,
}: {
  readonly of: number;
  readonly value: number;
  readonly onValue: (n: number) => void;
}) =>
  of > 1 ? (
    <CountField
      label={words.some}
      hint={words.someHint(of)}
      value={value}
      onValue={onValue}
      min={1}
      max={of}
    />
  ) : null;

/** What is said of some goes with a count; of all, without. */
export const countOf = (some: number, of: number): { count?: number } => (some < of ? { count: some } : {});

export const textOf = (note: string, name = 'note'): Record<string, string> =>
  note.trim() ? { [name]: note.trim() } : {};
