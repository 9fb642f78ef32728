import type { Column } from '../../server/contract/figures.ts';
import { Cell, cellText, type Row } from './cell.tsx';
import { partSpans } from './scale.ts';

interface Props {
  readonly title: string;
  readonly label: string;
  readonly parts: readonly Column[];
  readonly rows: readonly Row[];
}

/** The inks of the parts, in order; they tell apart in black and white too. */
const INKS = ['ink-open', 'ink-hatch', 'ink-solid', 'ink-dots'] as const;
const inkOf = (n: number): string => INKS[n % INKS.length]!;

const numberIn = (row: Row, field: string): number => Number(row[field] ?? 0) || 0;

/** Parts of a whole, row by row: a bar as long as the row is large, and its numbers beside it. */
export function Tally({ title, label, parts, rows }: Props) {
  const widest = Math.max(
    0,
    ...rows.map((row) => parts.reduce((sum, part) => sum + numberIn(row, part.field), 0)),
  );
  const column: Column = { field: label, label: '', kind: 'text', behind: `${label}Behind` };
  return (
    <table class={parts.length === 1 ? 'tally single' : 'tally'}>
      <caption class="unseen">{title}</caption>
      <thead>
        <tr>
          <th scope="col">
            <span class="unseen">{title}</span>
          </th>
          <td class="bar" />
          {parts.map((part, n) => (
            <th key={part.field} scope="col" class="figure-text">
              <Swatch ink={inkOf(n)} /> {part.label}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row, n) => (
          <tr key={n}>
            <th scope="row">
              <Cell column={column} row={row} />
            </th>
            <td class="bar">
              <Bar parts={parts.map((part) => numberIn(row, part.field))} widest={widest} />
            </td>
            {parts.map((part) => (
              <td key={part.field} class="figure-text" data-label={part.label}>
                <Cell column={part} row={row} about={cellText('text', row[label], row)} />
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

const Swatch = ({ ink }: { readonly ink: string }) => (
  <svg class="swatch" width="14" height="14" aria-hidden="true">
    <rect class={ink} x="1" y="1" width="12" height="12" />
  </svg>
);

function Bar({ parts, widest }: { readonly parts: readonly number[]; readonly widest: number }) {
  const percent = (n: number) => `${(n * 98).toFixed(2)}%`;
  return (
    <svg width="100%" height="22" aria-hidden="true">
      {partSpans(parts, widest).map(
        ({ from, to }, n) =>
          to > from && (
            <rect key={n} class={inkOf(n)} x={percent(from)} y="3" width={percent(to - from)} height="16" />
          ),
      )}
    </svg>
  );
}
