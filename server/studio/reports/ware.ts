/** The list of ware: filters, search by code or words, newest first. */
import {
  and,
  desc,
  eq,
  exists,
  getTableColumns,
  gte,
  inArray,
  isNotNull,
  isNull,
  like,
  lt,
  lte,
  ne,
  or,
  type SQL,
  sql,
} from 'drizzle-orm';
import type { SQLiteColumn } from 'drizzle-orm/sqlite-core';
import { z } from 'zod';
import { type Answered, type Ask, report } from '../../contract/plugin.ts';
import { GRADES, STAGES } from '../../contract/trade.ts';
import { links, ware } from '../tables.ts';
import { namesOf } from './names.ts';

const filter = z.string().trim().min(1).max(120).optional();

export const wareFilters = z.strictObject({
  q: filter,
  /** A stage, or 'here' for all that has not left. */
  stage: z.enum([...STAGES, 'here']).optional(),
  /** 'own', 'commission', 'student', 'hire', a person's id, or several with commas. */
  owner: filter,
  glaze: filter,
  clay: filter,
  firing: filter,
  fault: filter,
  grade: z.enum([...GRADES, 'none', 'second,waster']).optional(),
  schedule: filter,
  kiln: filter,
  bisqueSchedule: filter,
  bisqueKiln: filter,
  /** Days on which the glaze firing ended. */
  from: z.iso.date().optional(),
  to: z.iso.date().optional(),
  /** `next` of the page before. */
  after: z
    .string()
    .regex(/^\d{1,15}~[^~]{1,64}$/, 'where the page before ended')
    .optional(),
  limit: z.coerce.number().int().min(1).max(500).default(50),
});
type Filters = z.infer<typeof wareFilters>;

const linked = (ask: Ask, tag: string): SQL =>
  exists(
    ask.db
      .select({ one: sql`1` })
      .from(links)
      .where(and(eq(links.tag, tag), eq(links.piece, ware.piece))),
  );

const NONE = '(none)';
const orNone = (column: SQLiteColumn, value: string | undefined) =>
  value === undefined ? undefined : value === NONE ? isNull(column) : eq(column, value);

function owned(owner: string | undefined) {
  if (!owner) return undefined;
  const kinds = owner.split(',').map((part) => part.trim());
  return or(inArray(ware.owner, kinds), inArray(ware.person, kinds));
}

async function searched(ask: Ask, q: string | undefined) {
  if (!q) return undefined;
  const noted = await ask.textSearch(q);
  const needles = q.toLowerCase().split(/\s+/).filter(Boolean);
  const inWords = and(...needles.map((needle) => like(ware.words, `%${needle.replace(/[%_]/g, ' ')}%`)));
  const byMark = eq(ware.mark, q.toUpperCase());
  return noted.length > 0
    ? or(byMark, inWords, inArray(ware.stream, noted.slice(0, 500)))
    : or(byMark, inWords);
}

/** Glaze, fault and firing: a piece may have several of each. */
const tagsOf = (f: Filters): string[] => [
  ...(f.glaze && f.glaze !== NONE ? [`glaze:${f.glaze}`] : []),
  ...(f.fault ? [`fault:${f.fault}`] : []),
  ...(f.firing ? [`firing:${f.firing}`] : []),
];

function conditions(f: Filters) {
  return [
    f.stage === 'here' ? ne(ware.stage, 'left') : f.stage ? eq(ware.stage, f.stage) : undefined,
    owned(f.owner),
    orNone(ware.clay, f.clay),
    f.glaze === NONE ? isNull(ware.glazes) : undefined,
    f.grade === 'none'
      ? and(isNull(ware.grade), isNotNull(ware.fired))
      : f.grade
        ? inArray(ware.grade, f.grade.split(','))
        : undefined,
    orNone(ware.glazeSchedule, f.schedule),
    orNone(ware.glazeKiln, f.kiln),
    orNone(ware.bisqueSchedule, f.bisqueSchedule),
    orNone(ware.bisqueKiln, f.bisqueKiln),
    f.from ? gte(ware.fired, f.from) : undefined,
    f.to ? lte(ware.fired, f.to) : undefined,
  ];
}

/** One page more by one. By a tag, the page is read along the links of that tag, newest first, and not along all ware. */
async function found(ask: Ask, f: Filters) {
  const [tag, ...more] = tagsOf(f);
  const where = [...conditions(f), ...more.map((other) => linked(ask, other)), await searched(ask, f.q)];
  const columns = getTableColumns(ware);
  const before = (seqColumn: SQLiteColumn, pieceColumn: SQLiteColumn) => {
    if (!f.after) return undefined;
    const [seq, piece] = f.after.split('~') as [string, string];
    // Parts of one lot may have changed in the same entry.
    return or(lt(seqColumn, Number(seq)), and(eq(seqColumn, Number(seq)), lt(pieceColumn, piece)));
  };
  if (tag === undefined)
    return ask.db
      .select(columns)
      .from(ware)
      .where(and(...where, before(ware.changedSeq, ware.piece)))
      .orderBy(desc(ware.changedSeq), desc(ware.piece))
      .limit(f.limit + 1);
  return ask.db
    .select(columns)
    .from(links)
    .innerJoin(ware, eq(ware.piece, links.piece))
    .where(and(eq(links.tag, tag), ...where, before(links.changedSeq, links.piece)))
    .orderBy(desc(links.changedSeq), desc(links.piece))
    .limit(f.limit + 1);
}

async function list(ask: Ask, f: Filters): Promise<Answered> {
  const some = await found(ask, f);
  const names = await namesOf(ask);
  const page = some.slice(0, f.limit);
  const rows = page.map(({ stream: _stream, words: _words, ...row }) => ({
    ...row,
    clayName: row.clay ? (names.clay.get(row.clay) ?? row.clay) : null,
    glazeNames: row.glazes?.split(', ').map((id) => names.glaze.get(id) ?? id) ?? [],
    ownerName: row.person ? { person: row.person } : null,
    story: `/ware/${encodeURIComponent(row.piece)}`,
  }));
  const more = some.length > f.limit;
  const pieces = rows.reduce((sum, row) => sum + row.count, 0);
  return {
    sentence:
      rows.length === 0
        ? 'Nothing here fits.'
        : `${pieces} ${pieces === 1 ? 'piece' : 'pieces'} in ${rows.length} ${rows.length === 1 ? 'entry' : 'entries'}${more ? ', and more' : ''}.`,
    rows,
    notes: [],
    figures: [
      {
        figure: 'table',
        title: 'Ware',
        columns: [
          { field: 'mark', label: 'Mark', kind: 'mark', behind: 'story' },
          { field: 'count', label: 'Pieces', kind: 'count' },
          { field: 'form', label: 'Form', kind: 'text' },
          { field: 'stage', label: 'Stage', kind: 'code' },
          { field: 'grade', label: 'Grade', kind: 'code' },
          { field: 'clayName', label: 'Clay', kind: 'text', wide: true },
          { field: 'glazeNames', label: 'Glazes', kind: 'text', wide: true },
          { field: 'ownerName', label: 'Whose', kind: 'person', wide: true },
        ],
      },
    ],
    ...(more ? { more: { next: `${page.at(-1)!.changedSeq}~${page.at(-1)!.piece}` } } : {}),
  };
}

export const wareReport = report({ title: 'Ware', unlisted: true, input: wareFilters, run: list });
