import type { ComponentChildren } from 'preact';
import type { Problem } from '../api/client.ts';
import { shell } from '../words/shell.ts';
import { ProblemSaid } from './problem.tsx';

interface Props<T> {
  readonly of: { readonly answer?: T; readonly problem?: Problem; readonly again: () => void };
  readonly children: (answer: T) => ComponentChildren;
}

/** Shows an answer; while there is none, that it is on its way, or why there is none. */
export function Shown<T>({ of, children }: Props<T>) {
  return (
    <>
      {of.problem && <ProblemSaid problem={of.problem} reading again={of.again} />}
      {of.answer ? children(of.answer) : !of.problem && <p class="waiting">{shell.waiting}</p>}
    </>
  );
}
