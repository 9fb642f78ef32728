import { useEffect, useState } from 'preact/hooks';
import { ask, Failed, type Params, type Problem, reportAddress, type Told } from './client.ts';
import { recorded } from './fresh.ts';

export interface Asked<Row, More> {
  /** The newest answer; an older one stays in sight while a new one is fetched. */
  readonly answer?: Told<Row, More>;
  readonly problem?: Problem;
  readonly waiting: boolean;
  readonly again: () => void;
}

/** A report as it stands, asked again whenever the log has grown. `undefined` asks nothing. */
export function useReport<Row, More = Record<string, never>>(
  report: string | undefined,
  params: Params = {},
): Asked<Row, More> {
  return useAddress<Told<Row, More>>(report && reportAddress(report, params));
}

export function useAddress<T>(address: string | undefined) {
  const [held, hold] = useState<{ address?: string; answer?: T; problem?: Problem }>({});
  const [turn, next] = useState(0);
  const grown = recorded.value;

  useEffect(() => {
    if (!address) return;
    const stop = new AbortController();
    ask<T>(address, { signal: stop.signal })
      .then((answer) => hold({ address, answer }))
      .catch((failure: unknown) => {
        if (stop.signal.aborted) return;
        if (!(failure instanceof Failed)) throw failure;
        hold((before) => ({ ...before, problem: failure.problem }));
      });
    return () => stop.abort();
  }, [address, grown, turn]);

  return {
    answer: held.answer,
    problem: held.problem,
    waiting: !!address && held.address !== address && !held.problem,
    again: () => next((n) => n + 1),
  };
}
