/** What `defect-rates fault-guide` answers, as far as the page knows it by name. */
import type { Told } from '../api/client.ts';
import type { Row } from '../figures/cell.tsx';

export const GUIDE = 'defect-rates/fault-guide';

export interface GuideMore {
  readonly fault: string;
  readonly seen: string;
  readonly record: string;
  readonly pieces: number;
  readonly affected: number;
  readonly firing: { readonly label: string; readonly address: string } | null;
  readonly books: readonly string[];
}

export type GuideAnswer = Told<Row, GuideMore>;

export const linesOf = ({ rows }: GuideAnswer, kind: string): readonly Row[] =>
  rows.filter((row) => row.kind === kind);

/** Address of a fault's guide; with a piece, what it suspects is marked where the piece has it. */
export function guideAddress(fault: string, piece?: string): string {
  const query = new URLSearchParams({ fault, ...(piece ? { piece } : {}) });
  return `/review/${GUIDE}?${query}`;
}
