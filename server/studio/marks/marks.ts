/**
 * Runs of foot marks that a device holds for when it is offline: nobody else is given them, and what
 * is never used does no harm.
 */
import { markFor } from '../../contract/mark.ts';
import type { StreamKind, Streams } from '../../contract/streams.ts';
import type { StudioData } from '../../contract/studio/events.ts';

export interface Run {
  readonly run: string;
  readonly marks: readonly string[];
  /** Those that a piece carries now. */
  readonly used: readonly string[];
}

/** A foot mark is on one pot at a time; upper and lower case are the same mark. */
export const markClaim = (text: string): string => `mark:${text.normalize('NFKC').toUpperCase()}`;

export const marksStream = (run: string): string => `marks:${run}`;

export const marksKind: StreamKind<Run> = {
  prefix: 'marks',
  initial: (run) => ({ run, marks: [], used: [] }),
  evolve: (run, entry) => {
    if (entry.name === 'mark.reserved')
      return { ...run, marks: [...run.marks, ...(entry.data as StudioData<'mark.reserved'>).marks] };
    const mark = entry.name === 'piece.begun' ? (entry.data as StudioData<'piece.begun'>).mark : undefined;
    return mark === undefined ? run : { ...run, used: [...run.used, mark] };
  },
  legal: () => undefined,
};

/** Whether the mark is of this run and on no pot yet. */
export function isReserved(streams: Streams, run: string, mark: string): boolean {
  const { marks, used } = streams.latest(marksKind, run);
  return marks.includes(mark) && !used.includes(mark);
}

/** So many marks that differ, for the run reserved by this command; other ones for each attempt. */
export function marksFor(command: string, attempt: number, count: number): string[] {
  const marks = new Set<string>();
  for (let n = 0; marks.size < count; n++) marks.add(markFor(`${command}#${n}`, attempt));
  return [...marks];
}
