import type { Column } from '../../server/contract/figures.ts';
import { figures } from '../words/figures.ts';
import { shell } from '../words/shell.ts';
import { cellText, isFigure, type Kind, type Row } from './cell.tsx';
import { dayNumber, extent, linear, linePath, ticks } from './scale.ts';
import { Table } from './table.tsx';
import { useWidth } from './use-width.ts';

export interface Line {
  readonly field: string;
  readonly label: string;
  readonly kind: Kind;
}

interface Props {
  readonly title: string;
  readonly x: Column;
  readonly lines: readonly Line[];
  readonly lower?: string;
  readonly upper?: string;
  readonly centre?: string;
  readonly out?: string;
  readonly rows: readonly Row[];
}

const HEIGHT = 260;
const LEFT = 56;
const RIGHT = 16;
const TOP = 14;
const BOTTOM = 34;
const DASHES = ['', '6 4', '2 3', '10 3 2 3'];

const numberIn = (row: Row, field: string | undefined): number | undefined => {
  const value = field === undefined ? undefined : row[field];
  return typeof value === 'number' && Number.isFinite(value) ? value : undefined;
};

/** Places along x: days by the calendar, numbers by their size, anything else one after another. */
function along(x: Column, rows: readonly Row[], from: number, to: number): (row: Row, n: number) => number {
  if (x.kind === 'day' || x.kind === 'moment' || isFigure(x.kind)) {
    const at = (row: Row) => (isFigure(x.kind) ? Number(row[x.field]) : dayNumber(String(row[x.field])));
    const { low, high } = extent(rows.map(at), false);
    const place = linear(low, high, from, to);
    return (row) => place(at(row));
  }
  const place = linear(0, Math.max(1, rows.length - 1), from, to);
  return (_, n) => place(n);
}

export function Series({ title, x, lines, lower, upper, centre, out, rows }: Props) {
  const { element, width } = useWidth(640);
  const values = rows.flatMap((row) =>
    [...lines.map((line) => line.field), lower, upper].map((field) => numberIn(row, field)),
  );
  const fromZero = lines.every((line) => line.kind !== 'number');
  const range = extent(
    values.filter((value) => value !== undefined),
    fromZero,
  );
  const marks = ticks(range.low, range.high, 4);
  const yOf = linear(marks[0]!, marks.at(-1)!, HEIGHT - BOTTOM, TOP);
  const xOf = along(x, rows, LEFT, width - RIGHT);
  const kind = lines[0]?.kind ?? 'number';
  const path = (field: string | undefined) =>
    linePath(
      rows.map((row, n) => {
        const value = numberIn(row, field);
        return value === undefined ? undefined : [xOf(row, n), yOf(value)];
      }),
    );
  const every = Math.ceil(rows.length / Math.max(2, Math.floor((width - LEFT) / 90)));
  return (
    <div class="series" ref={element}>
      {lines.length > 1 && <LineKey lines={lines} />}
      <svg width={width} height={HEIGHT} role="img" aria-label={title}>
        {marks.map((mark) => (
          <g key={mark}>
            <line class="grid" x1={LEFT} x2={width - RIGHT} y1={yOf(mark)} y2={yOf(mark)} />
            <text class="tick-text" x={LEFT - 8} y={yOf(mark) + 4} text-anchor="end">
              {cellText(kind, mark, rows[0])}
            </text>
          </g>
        ))}
        {rows.map(
          (row, n) =>
            n % every === 0 && (
              <text
                key={n}
                class="tick-text"
                x={xOf(row, n)}
                y={HEIGHT - 12}
                text-anchor={xOf(row, n) > width - RIGHT - 40 ? 'end' : 'middle'}
              >
                {cellText(x.kind, row[x.field], row)}
              </text>
            ),
        )}
        {[lower, upper].map((field) => field && <path key={field} class="pen limit" d={path(field)} />)}
        {centre && <path class="pen thin" d={path(centre)} />}
        {lines.map((line, n) => (
          <path
            key={line.field}
            class="pen"
            d={path(line.field)}
            stroke-dasharray={DASHES[n % DASHES.length] || undefined}
          />
        ))}
        {lines.map((line) =>
          rows.map((row, n) => (
            <Point key={`${line.field} ${n}`} {...{ x, line, row, out }} cx={xOf(row, n)} yOf={yOf} />
          )),
        )}
      </svg>
      <details class="no-paper">
        <summary>{figures.asTable}</summary>
        <Table
          title={title}
          columns={[x, ...lines.map((line) => ({ ...line, behind: `${line.field}Behind` }))]}
          rows={rows}
        />
      </details>
    </div>
  );
}

interface PointProps {
  readonly x: Column;
  readonly line: Line;
  readonly row: Row;
  readonly out?: string;
  readonly cx: number;
  readonly yOf: (value: number) => number;
}

function Point({ x, line, row, out, cx, yOf }: PointProps) {
  const value = numberIn(row, line.field);
  if (value === undefined) return null;
  const isOut = out !== undefined && !!row[out];
  const text = `${cellText(x.kind, row[x.field], row)}: ${cellText(line.kind, value, row)}${isOut ? `, ${figures.out}` : ''}`;
  return (
    <g>
      {isOut && <circle class="pen" cx={cx} cy={yOf(value)} r="9" fill="none" />}
      <circle class="dot" cx={cx} cy={yOf(value)} r="3.5">
        <title>{text}</title>
      </circle>
    </g>
  );
}

const LineKey = ({ lines }: { readonly lines: readonly Line[] }) => (
  <ul class="key" aria-label={shell.key}>
    {lines.map((line, n) => (
      <li key={line.field}>
        <svg width="34" height="10" aria-hidden="true">
          <line
            class="pen"
            x1="1"
            x2="33"
            y1="5"
            y2="5"
            stroke-dasharray={DASHES[n % DASHES.length] || undefined}
          />
        </svg>
        {line.label}
      </li>
    ))}
  </ul>
);
