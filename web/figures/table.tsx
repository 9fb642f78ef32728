import type { Column } from '../../server/contract/figures.ts';
import { Cell, cellText, isFigure, type Row } from './cell.tsx';

interface Props {
  readonly title: string;
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
}

/** The first column names the row. */
export function Table({ title, columns, rows }: Props) {
  const [head, ...rest] = columns;
  if (!head) return null;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by the keyboard
    <section class="scrolls" aria-label={title} tabIndex={0}>
      <table>
        <thead>
          <tr>
            {columns.map((column) => (
              <th key={column.field} scope="col" class={classOf(column)}>
                {column.label}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row, n) => (
            <tr key={n}>
              <th scope="row" class={classOf(head)}>
                <Cell column={head} row={row} />
              </th>
              {rest.map((column) => (
                <td key={column.field} class={classOf(column)}>
                  <Cell column={column} row={row} about={cellText(head.kind, row[head.field], row)} />
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

const classOf = (column: Column): string | undefined =>
  [isFigure(column.kind) && 'figure-text', column.wide && 'wide'].filter(Boolean).join(' ') || undefined;
