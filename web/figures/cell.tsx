import type { Column } from '../../server/contract/figures.ts';
import { figures } from '../words/figures.ts';
import {
  countText,
  dayText,
  momentText,
  moneyText,
  monthText,
  numberText,
  rateText,
} from '../words/numbers.ts';
import { faultNames, gradeNames, named, stageNames } from '../words/trade.ts';

export type Row = Readonly<Record<string, unknown>>;
export type Kind = Column['kind'];

const knownWords = { ...faultNames, ...stageNames, ...gradeNames };

const isMissing = (value: unknown): boolean => value === null || value === undefined || value === '';

function personText(value: unknown): string {
  if (typeof value === 'string') return value;
  const name = (value as { name?: string | null }).name;
  return name ?? figures.forgotten;
}

/** A month ('2026-05') reads as one, a day as one; a known word of the trade by its name. */
function plainText(value: string): string {
  if (/^\d{4}-\d\d$/.test(value)) return monthText(value);
  if (/^\d{4}-\d\d-\d\d$/.test(value)) return dayText(value);
  return named(knownWords, value) === value.replaceAll('-', ' ') && !Object.hasOwn(knownWords, value)
    ? value
    : named(knownWords, value);
}

/** Rows without a price have no currency; the studio's own stands in. */
const currencyOf = (row: Row): string | undefined =>
  typeof row.currency === 'string' && row.currency !== '' ? row.currency : undefined;

/** A value as it reads on the page. Rates are fractions, money is minor units of the row's `currency`. */
export function cellText(kind: Kind, value: unknown, row: Row = {}): string {
  if (isMissing(value)) return '–';
  if (kind === 'count') return countText(Number(value));
  if (kind === 'number') return numberText(Number(value));
  if (kind === 'rate') return rateText(Number(value));
  if (kind === 'money') return moneyText(Number(value), currencyOf(row));
  if (kind === 'day') return dayText(String(value));
  if (kind === 'moment') return momentText(String(value));
  if (kind === 'person') return personText(value);
  return plainText(String(value));
}

export const isFigure = (kind: Kind): boolean => ['count', 'number', 'rate', 'money'].includes(kind);

interface Props {
  readonly column: Column;
  readonly row: Row;
  /** What the row is about, for whoever hears the link without seeing the row. */
  readonly about?: string;
}

/** A value, leading to the pieces behind it where the report says where they are. */
export function Cell({ column, row, about }: Props) {
  const text = cellText(column.kind, row[column.field], row);
  const address = column.behind ? row[column.behind] : undefined;
  const shown = column.kind === 'mark' ? <span class="mark">{text}</span> : text;
  if (typeof address !== 'string' || !address.startsWith('/') || isMissing(row[column.field]))
    return <>{shown}</>;
  const label =
    about && isFigure(column.kind) ? `${text}: ${figures.behind(about, column.label)}` : undefined;
  return (
    <a href={address} aria-label={label}>
      {shown}
    </a>
  );
}
