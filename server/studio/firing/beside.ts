/** When two devices noted the same step of a firing without knowing of each other. */
import type { Entry } from '../../contract/entry.ts';
import { type Beside, dataOf } from '../piece/beside.ts';

interface Step {
  readonly firing: string;
  readonly top?: number;
  readonly cones?: unknown;
  readonly note?: unknown;
  readonly why?: unknown;
}

/** The step was noted already, and this says nothing more of it. */
export const stepBeside =
  (name: 'firing.lit' | 'firing.ended' | 'firing.drawn' | 'firing.abandoned') =>
  (input: Step, others: readonly Entry[]): Beside => {
    const ours: readonly Step[] = dataOf(others, name).filter((data) => data.firing === input.firing);
    if (ours.length === 0) return undefined;
    const addsNothing = (data: Step) =>
      (input.top === undefined || input.top === data.top) &&
      (input.cones === undefined || JSON.stringify(input.cones) === JSON.stringify(data.cones)) &&
      input.note === undefined &&
      input.why === undefined;
    return ours.some(addsNothing) ? 'alike' : 'against';
  };
