/** The lines of Today in their order, under their headings. Pure. */
import type { WaitingLine, WaitingTold } from '../api/studio.ts';
import { headings } from '../words/today.ts';

export interface Heading {
  readonly does: string;
  readonly title: string;
  readonly lines: readonly WaitingLine[];
  /** How many more there are than are listed. */
  readonly unlisted: number;
}

/** A kiln that has ended and is usually not drawn yet is cooling. */
function placed(line: WaitingLine, now: number): WaitingLine {
  const cooling = line.does === 'draw' && line.usually && Date.parse(line.usually) > now;
  return cooling ? { ...line, does: 'cool', order: line.order + 1 } : line;
}

/** @param now milliseconds */
export function headingsOf(told: WaitingTold['told'], now: number): readonly Heading[] {
  const unlisted = Object.assign({}, ...told.map(({ more }) => more?.unlisted ?? {}));
  const lines = told
    .flatMap(({ rows }) => rows)
    .map((line) => placed(line, now))
    .sort((a, b) => a.order - b.order);
  const kinds = [...new Set(lines.map(({ does }) => does))];
  return kinds.map((does) => {
    const under = lines.filter((line) => line.does === does);
    return {
      does,
      title: headings[does] ?? under[0]!.title,
      lines: under,
      unlisted: unlisted[does] ?? 0,
    };
  });
}
