/** What a row says happened, step by step, in the order of a piece's way. */
import type { Money, Owner } from '../../contract/studio/values.ts';
import type { Grade } from '../../contract/trade.ts';
import { GRADES } from '../../contract/trade.ts';
import { piecesByGrade } from '../../studio/piece/grade.ts';
import { piecesWith } from './faults.ts';
import type { FileFiring } from './firings.ts';
import type { StepKind } from './ids.ts';
import { contentOf, named } from './ids.ts';
import type { Column } from './read.ts';
import type { NotebookRow } from './row.ts';

/** A row whose names are handles, whose owner is an id and whose firings are known. */
export interface PlannedRow {
  readonly row: NotebookRow;
  /** As the first part of its commands' ids. */
  readonly of: string;
  readonly lot: string;
  readonly owner: Owner;
  readonly clay?: string;
  readonly glazes: readonly {
    readonly zone?: string;
    readonly layers: readonly { glaze: string; coats: number }[];
  }[];
  readonly bisque?: FileFiring;
  readonly glaze?: FileFiring;
  readonly price?: Money;
  readonly secondPrice?: Money;
}

export interface Step {
  readonly kind: StepKind;
  readonly command: string;
  /** Absent when the row has no date at all: then it is noted as of now. */
  readonly day?: string;
  /** Place within a day among the steps of all rows, lower first. */
  readonly rank: number;
  readonly input: Readonly<Record<string, unknown>>;
  /** 13 hex digits: another content is another entry. */
  readonly content: string;
  /** The column it comes from. */
  readonly column: Column;
  /** It goes through this firing. */
  readonly firing?: FileFiring;
}

/** A row without a mark is known by its place among those of the same day, form, clay and owner. */
export function rowIdentity(
  row: NotebookRow,
  owner: Owner,
  clay: string | undefined,
  place: number,
): { of: string; id: string } {
  if (row.piece !== undefined) return named('mark', markKey(row.piece));
  return named(
    'row',
    row.made ?? null,
    row.form ?? null,
    clay ?? null,
    owner.kind,
    owner.kind === 'own' ? null : owner.person,
    place,
  );
}

/** Marks are compared as the studio claims them. */
export const markKey = (mark: string): string => mark.normalize('NFKC').toUpperCase();

/** `graded` is the id of the command that grades the row: the parts of a mixed lot are named after it. */
export function stepsOf(planned: PlannedRow, graded?: string): Step[] {
  const { row, lot } = planned;
  const days = daysOf(planned);
  const step = (
    kind: StepKind,
    command: string,
    rank: number,
    day: string | undefined,
    column: Column,
    input: object,
    more: object = {},
  ): Step => ({
    kind,
    command,
    rank,
    ...(day === undefined ? {} : { day }),
    column,
    input: { piece: lot, ...input },
    content: contentOf(input, day ?? null),
    ...more,
  });
  const fault =
    row.faults.length > 0 && row.faults.every(({ kind }) => kind === row.faults[0]!.kind)
      ? { fault: row.faults[0]!.kind }
      : {};
  const steps = [
    step('begin', 'piece.begin', 0, days.begun, row.made === undefined ? 'piece' : 'made', begun(planned)),
    ...priced(planned).map((input) => step('price', 'piece.price', 85, days.begun, 'price', input)),
    ...packed(planned, planned.bisque),
    ...planned.glazes.map((glaze) =>
      step('glaze', 'glaze.apply', 40, days.glazed, 'glazes', { ...glaze, ...notNoted(planned) }),
    ),
    ...packed(planned, planned.glaze),
    ...row.faults.map((found) =>
      step('fault', 'fault.find', 70, days.seen, 'faults', {
        ...found,
        count: piecesWith(found, row.count, row.grades),
      }),
    ),
    ...row.repairs.map((method) =>
      step('repair', 'repair.do', 74, days.seen, 'repair', { method, ...fault }),
    ),
    ...(row.grades === undefined
      ? []
      : [step('grade', 'piece.grade', 80, days.seen, 'grade', { ...row.grades })]),
    ...leaving(planned, graded).map(({ piece, ...input }) => {
      const left = step('left', 'piece.leave', 90, row.left!.day ?? days.seen, 'left', input);
      return { ...left, input: { ...left.input, piece } };
    }),
    /* A note can hold a name: not even a hash of it goes into an id. */
    ...(row.note === undefined
      ? []
      : [{ ...step('note', 'piece.note', 95, days.begun, 'note', { note: row.note }), content: NO_CONTENT }]),
  ];
  return told(steps);
}

/** Content of steps that are compared by their text instead. */
export const NO_CONTENT = '0'.repeat(13);

/** The same thing said twice in a row is two things: they get contents of their own. */
function told(steps: Step[]): Step[] {
  const times = new Map<string, number>();
  return steps.map((step) => {
    const key = step.kind + step.content;
    const before = times.get(key) ?? 0;
    times.set(key, before + 1);
    return before === 0 ? step : { ...step, content: contentOf(step.content, before) };
  });
}

/** A step without a date of its own is noted under the nearest one that it cannot have come before. */
function daysOf({ row, bisque, glaze }: PlannedRow) {
  const begun = row.made ?? bisque?.day ?? glaze?.day ?? row.left?.day;
  const seen = glaze?.day ?? bisque?.day ?? begun;
  return { begun, glazed: seen, seen };
}

function begun({ row, owner, clay }: PlannedRow): object {
  return {
    count: row.count,
    ...(row.piece === undefined ? {} : { mark: row.piece }),
    ...(row.form === undefined ? {} : { form: row.form }),
    ...(clay === undefined ? {} : { clay }),
    owner,
  };
}

function priced({ price, secondPrice }: PlannedRow): object[] {
  if (price === undefined && secondPrice === undefined) return [];
  return [
    { ...(price === undefined ? {} : { price }), ...(secondPrice === undefined ? {} : { secondPrice }) },
  ];
}

/** A glaze firing in a row that has no bisque: that it was fired or dried before was not noted. */
const notNoted = ({ bisque, glaze }: PlannedRow): object =>
  glaze !== undefined && bisque === undefined ? { stagesNotNoted: true } : {};

const PACKING = { bisque: 30, glaze: 50 } as const;
const FIRED: Readonly<Record<FileFiring['role'], Column>> = { bisque: 'bisque_fired', glaze: 'glaze_fired' };

/**
 * Each row is packed by an entry of its own, not all of a firing by one: so what an amended row says
 * of its firing can be struck out without striking out the whole load and all that came of it.
 */
function packed(planned: PlannedRow, firing: FileFiring | undefined): Step[] {
  if (firing === undefined) return [];
  const { id, role, label, kiln, schedule, studioSchedule, late } = firing;
  const used = schedule ?? studioSchedule;
  const day = late?.day ?? firing.day;
  const load = {
    firing: id,
    label,
    kiln,
    ...(used === undefined ? {} : { schedule: used }),
    role,
    ...(late === undefined ? {} : { afterwards: late.afterwards }),
  };
  return [
    {
      kind: role === 'bisque' ? 'bisque' : 'glaze-fire',
      command: 'firing.pack',
      rank: PACKING[role] + (late === undefined ? 0 : 5),
      ...(day === undefined ? {} : { day }),
      column: FIRED[role],
      firing,
      input: { ...load, places: [{ piece: planned.lot }], ...(role === 'glaze' ? notNoted(planned) : {}) },
      content: contentOf(id, schedule ?? null),
    },
  ];
}

/** Wasters of a mixed lot are not sold, posted or given away with the rest. */
const LEAVE_WASTERS = new Set(['sold', 'posted', 'given']);

function leaving(
  { row, lot, price, secondPrice }: PlannedRow,
  graded: string | undefined,
): { piece: string; how: string }[] {
  if (row.left === undefined) return [];
  const { how } = row.left;
  const sold = (grade: Grade | undefined) => {
    const amount = grade === 'second' ? secondPrice : grade === 'waster' ? undefined : price;
    return how === 'sold' && amount !== undefined ? { price: amount } : {};
  };
  if (row.grades === undefined) return [{ piece: lot, how, ...sold(undefined) }];
  const { grades } = row;
  const parts = piecesByGrade(lot, row.count, grades, graded ?? '');
  const given = GRADES.filter((grade) => grades[grade] > 0);
  const going =
    given.length > 1 && LEAVE_WASTERS.has(how) ? given.filter((grade) => grade !== 'waster') : given;
  return going.map((grade) => ({
    piece: parts[grade]!,
    how,
    ...sold(grade),
    ...(given.length > 1 ? { count: grades[grade] } : {}),
  }));
}
