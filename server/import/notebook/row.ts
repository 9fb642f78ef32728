/** One row of a notebook: what its cells say, or every cell that does not fit. */

import type { Reading } from '../../contract/cells/cell.ts';
import {
  failed,
  listed,
  readCount,
  readName,
  readNamed,
  readText,
  unfit,
} from '../../contract/cells/cell.ts';
import { readDay } from '../../contract/cells/dates.ts';
import type { CurrencySigns } from '../../contract/cells/money.ts';
import { readMoney } from '../../contract/cells/money.ts';
import type { Bad } from '../records.ts';
import { shortened } from '../records.ts';
import type { RowFault } from './faults.ts';
import { readFaults } from './faults.ts';
import type { RowGlaze } from './glazes.ts';
import { readGlazes } from './glazes.ts';
import type { Grades } from './grade.ts';
import { readGrade } from './grade.ts';
import type { RowLeft } from './left.ts';
import { readLeft } from './left.ts';
import type { RowOwner } from './owner.ts';
import { readOwner } from './owner.ts';
import type { Cells, Column } from './read.ts';
import type { KnownWords } from './words.ts';
import { readWord } from './words.ts';

/** What a row says of a firing that the piece went through. Names as they stand in the row. */
export interface RowFiring {
  readonly label?: string;
  readonly day?: string;
  readonly kiln?: string;
  readonly schedule?: string;
}

export interface NotebookRow {
  readonly line: number;
  /** The mark on its foot. */
  readonly piece?: string;
  readonly count: number;
  readonly made?: string;
  readonly form?: string;
  readonly clay?: string;
  readonly owner: RowOwner;
  readonly bisque?: RowFiring;
  readonly glazes: readonly RowGlaze[];
  readonly glaze?: RowFiring;
  readonly faults: readonly RowFault[];
  readonly grades?: Grades;
  readonly repairs: readonly string[];
  /** Minor units of the studio's currency. */
  readonly price?: number;
  readonly secondPrice?: number;
  readonly left?: RowLeft;
  readonly note?: string;
}

/** What a row is read by. */
export interface Reader {
  readonly words: KnownWords;
  readonly money: CurrencySigns;
  /** In the studio's zone. */
  readonly today: string;
}

const LONGEST_NOTE = 5_000;

export function readRow({ line, cells }: Cells, { words, money, today }: Reader): NotebookRow | Bad[] {
  const bad: Bad[] = [];
  const take = <T>(column: Column, read: (cell: string) => Reading<T>): T | undefined => {
    const cell = cells[column];
    if (cell === undefined) return undefined;
    const reading = read(cell);
    if (!failed(reading)) return reading.value;
    bad.push({ line, column, found: shortened(reading.found), expected: reading.expected });
    return undefined;
  };
  const day = (cell: string) => readDay(cell, today);
  const price = (cell: string) => readMoney(cell, money);
  const firing = (label: Column, fired: Column, kiln: Column, schedule: Column): RowFiring | undefined => {
    const said = some({
      label: take(label, readName),
      day: take(fired, day),
      kiln: take(kiln, readNamed),
      schedule: take(schedule, readNamed),
    });
    if (said !== undefined && cells[label] === undefined && cells[fired] === undefined) {
      const found = cells[schedule] ?? cells[kiln] ?? '';
      bad.push({
        line,
        column: fired,
        found: shortened(found),
        expected: `the day of that firing, a date like 2026-05-01, or its label in ${label}; leave its schedule and kiln blank until it was fired`,
      });
    }
    return said;
  };

  const count = take('count', readCount) ?? 1;
  const row: NotebookRow = {
    line,
    piece: take('piece', readMarkOnFoot),
    count,
    made: take('made', day),
    form: take('form', readName),
    clay: take('clay', readNamed),
    owner: take('owner', readOwner) ?? { kind: 'own' },
    bisque: firing('bisque_firing', 'bisque_fired', 'bisque_kiln', 'bisque_schedule'),
    glazes: take('glazes', (cell) => readGlazes(cell, words)) ?? [],
    glaze: firing('glaze_firing', 'glaze_fired', 'kiln', 'glaze_schedule'),
    faults: take('faults', (cell) => readFaults(cell, count, words)) ?? [],
    grades: take('grade', (cell) => readGrade(cell, count)),
    repairs: take('repair', (cell) => readRepairs(cell, words)) ?? [],
    price: take('price', price),
    secondPrice: take('second_price', price),
    left: take('left', (cell) => readLeft(cell, today)),
    note: take('note', (cell) => readText(cell, LONGEST_NOTE)),
  };
  if (cells.made === undefined && cells.piece === undefined) {
    bad.push({
      line,
      column: 'made',
      found: '',
      expected: 'the day it was made, a date like 2026-05-01, or its mark in piece',
    });
  }
  if (bad.length === 0) bad.push(...outOfOrder(row, cells), ...neverFired(row, cells));
  return bad.length > 0 ? bad : row;
}

/** The fields that say something, or nothing when none does. */
function some(firing: RowFiring): RowFiring | undefined {
  return Object.values(firing).some((value) => value !== undefined) ? firing : undefined;
}

/** Any mark that is on the foot, not only those the studio gives. */
function readMarkOnFoot(cell: string): Reading<string> {
  const name = readName(cell);
  if (failed(name)) return name;
  return name.value.length > 24 ? unfit(cell, 'a mark of at most 24 characters') : name;
}

function readRepairs(cell: string, words: KnownWords): Reading<string[]> {
  const value: string[] = [];
  for (const part of listed(cell)) {
    const repair = readWord(part, 'repair', words);
    if (failed(repair)) return repair;
    value.push(repair.value);
  }
  return value.length === 0
    ? unfit(cell, `a repair: one of ${[...words.repair.values()].join(', ')}`)
    : { value };
}

/** made ≤ bisque fired ≤ glaze fired ≤ left. */
function outOfOrder(row: NotebookRow, cells: Cells['cells']): Bad[] {
  const bad: Bad[] = [];
  const days: [Column, string | undefined, string][] = [
    ['made', row.made, 'made'],
    ['bisque_fired', row.bisque?.day, 'bisque fired'],
    ['glaze_fired', row.glaze?.day, 'glaze fired'],
    ['left', row.left?.day, 'left'],
  ];
  let before: { day: string; said: string } | undefined;
  for (const [column, day, said] of days) {
    if (day === undefined) continue;
    if (before !== undefined && day < before.day) {
      bad.push({
        line: row.line,
        column,
        found: shortened(cells[column]!),
        expected: `${before.day} or later, as it was ${before.said} on ${before.day}`,
      });
    }
    before = { day, said };
  }
  return bad;
}

/** What only fired ware can be: graded, mended, sold or posted. */
function neverFired(row: NotebookRow, cells: Cells['cells']): Bad[] {
  if (row.bisque !== undefined || row.glaze !== undefined) return [];
  const needs: Column[] = [];
  if (row.grades !== undefined) needs.push('grade');
  if (row.repairs.length > 0) needs.push('repair');
  if (row.left?.how === 'sold' || row.left?.how === 'posted') needs.push('left');
  const expected =
    'nothing yet, or the day it was fired in bisque_fired or glaze_fired: only fired ware is graded, mended or sold';
  return needs.map((column) => ({ line: row.line, column, found: shortened(cells[column]!), expected }));
}
