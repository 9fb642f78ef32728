import type { Problem } from '../api/client.ts';
import { UNSURE } from '../api/reach.ts';
import { problems } from '../words/problems.ts';
import { shell } from '../words/shell.ts';

interface Said {
  readonly what: string;
  readonly kept: string;
  readonly doNext?: string;
}

/** What happened, what was kept, what to do. */
export function say(problem: Problem, reading: boolean, part: boolean): Said {
  const kept = reading ? problems.readKept : part ? problems.partKept : problems.refusedKept;
  if (problem.status === 0)
    return {
      what: problems.notReached,
      kept: reading ? kept : problems.notReachedKept,
      doNext: problems.notReachedDo,
    };
  if (problem.status >= 500)
    return {
      what: problem.sentence || problems.server,
      kept: problems.serverKept,
      doNext: problems.serverDo,
    };
  if (problem.code === UNSURE) return { what: problem.sentence, kept: '' };
  if (problem.status === 404 && !problem.sentence) return { what: problems.notThere, kept: '' };
  return { what: problem.sentence || problems.server, kept };
}

interface Props {
  readonly problem: Problem;
  /** It was asked for, not recorded. */
  readonly reading?: boolean;
  /** Some of what was wished had been recorded. */
  readonly part?: boolean;
  readonly again?: () => void;
}

export function ProblemSaid({ problem, reading = false, part = false, again }: Props) {
  const { what, kept, doNext } = say(problem, reading, part);
  return (
    <div class="problem" role="alert">
      <p>
        <strong>{what}</strong>
      </p>
      {(kept || doNext) && (
        <p>
          {kept} {doNext}
        </p>
      )}
      <p class="code">{shell.codeIs(problem.code)}</p>
      {again && (
        <p>
          <button type="button" onClick={again}>
            {shell.again}
          </button>
        </p>
      )}
    </div>
  );
}
