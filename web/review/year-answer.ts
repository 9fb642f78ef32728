/** What `seconds-tally year` answers, as far as the page knows it by name. */
import type { Told } from '../api/client.ts';
import type { Row } from '../figures/cell.tsx';

export const YEAR = 'seconds-tally/year';

interface Days {
  readonly from: string;
  readonly to: string;
}
export interface NamedYear extends Days {
  readonly name: string;
}

export interface YearMore {
  readonly year: NamedYear & { readonly until: string; readonly over: boolean };
  readonly before: Days;
  readonly years: readonly NamedYear[];
  readonly headline: string;
  readonly compared: string;
  readonly worst: string;
  readonly best: string;
  readonly mended: string;
  readonly advice: readonly string[];
  readonly pieces: number;
}

export type YearAnswer = Told<Row, YearMore>;

export const partOf = ({ rows }: YearAnswer, kind: string): readonly Row[] =>
  rows.filter((row) => row.kind === kind);

/** What is asked for a year: nothing for the present one, so that its address stays good next year. */
export const askedYear = (
  year: Days,
  years: readonly Days[],
): { readonly from?: string; readonly to?: string } =>
  year.from === years[0]?.from ? { from: undefined, to: undefined } : { from: year.from, to: year.to };
