import type { Column } from '../../server/contract/figures.ts';
import { figures } from '../words/figures.ts';
import { countText } from '../words/numbers.ts';
import { Cell, cellText, type Row } from './cell.tsx';
import { extent, FEW_PIECES, linear, ticks } from './scale.ts';

interface Props {
  readonly title: string;
  readonly label: string;
  readonly estimate: Column;
  readonly low: string;
  readonly high: string;
  readonly pieces: string;
  readonly rows: readonly Row[];
}

/** A dot with its interval as a bar, and the numbers beside it. Few pieces: a long bar and an open dot. */
export function Ranking({ title, label, estimate, low, high, pieces, rows }: Props) {
  const range = extent(
    rows.map((row) => Number(row[high] ?? row[estimate.field])),
    true,
  );
  const marks = ticks(range.low, range.high, 4);
  const place = linear(marks[0]!, marks.at(-1)!, 1.5, 97);
  const percent = (value: unknown) => `${place(Number(value)).toFixed(2)}%`;
  const named: Column = { field: label, label: '', kind: 'text', behind: `${label}Behind` };
  const anyFew = rows.some((row) => Number(row[pieces]) < FEW_PIECES);
  return (
    <>
      <table class="tally ranking">
        <caption class="unseen">{title}</caption>
        <thead>
          <tr>
            <th scope="col">
              <span class="unseen">{title}</span>
            </th>
            <td class="bar">
              <svg width="100%" height="22" aria-hidden="true">
                {marks.map((mark) => (
                  <text key={mark} class="tick-text" x={percent(mark)} y="16" text-anchor="middle">
                    {cellText(estimate.kind, mark)}
                  </text>
                ))}
              </svg>
            </td>
            <th scope="col" class="figure-text">
              {estimate.label}
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row, n) => (
            <tr key={n}>
              <th scope="row">
                <Cell column={named} row={row} />
              </th>
              <td class="bar">
                <svg width="100%" height="26" aria-hidden="true">
                  {marks.map((mark) => (
                    <line key={mark} class="grid" x1={percent(mark)} x2={percent(mark)} y1="0" y2="26" />
                  ))}
                  <line class="pen thick" x1={percent(row[low])} x2={percent(row[high])} y1="13" y2="13" />
                  <circle
                    class={Number(row[pieces]) < FEW_PIECES ? 'dot open' : 'dot'}
                    cx={percent(row[estimate.field])}
                    cy="13"
                    r="6"
                  />
                </svg>
              </td>
              <td class="figure-text">
                <Cell column={estimate} row={row} about={cellText('text', row[label], row)} />
                <span class="soft small beside">
                  {figures.interval(cellText(estimate.kind, row[low]), cellText(estimate.kind, row[high]))}{' '}
                  {figures.of} {countText(Number(row[pieces]))}
                </span>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {anyFew && <p class="soft small">{figures.fewKey}</p>}
    </>
  );
}
