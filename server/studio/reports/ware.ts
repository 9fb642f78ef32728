/** The list of ware: filters, search by code or words, newest first. */
import {
  and,
  desc,
  eq,
  exists,
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
  after: z.coerce.number().int().min(0).optional(),
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

function conditions(ask: Ask, f: Filters) {
  return [
    f.stage === 'here' ? ne(ware.stage, 'left') : f.stage ? eq(ware.stage, f.stage) : undefined,
    owned(f.owner),
    orNone(ware.clay, f.clay),
    f.glaze === NONE ? isNull(ware.glazes) : f.glaze ? linked(ask, `glaze:${f.glaze}`) : undefined,
    f.firing ? linked(ask, `firing:${f.firing}`) : undefined,
    f.fault ? linked(ask, `fault:${f.fault}`) : undefined,
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
    f.after ? lt(ware.changedSeq, f.after) : undefined,
  ];
}

async function list(ask: Ask, f: Filters): Promise<Answered> {
  const where = and(...conditions(ask, f), await searched(ask, f.q));
  const found = await ask.db
    .select()
    .from(ware)
    .where(where)
    .orderBy(desc(ware.changedSeq), desc(ware.piece))
    .limit(f.limit + 1);
  const names = await namesOf(ask);
  const page = found.slice(0, f.limit);
  const rows = page.map(({ stream: _stream, words: _words, ...row }) => ({
    ...row,
    clayName: row.clay ? (names.clay.get(row.clay) ?? row.clay) : null,
    glazeNames: row.glazes?.split(', ').map((id) => names.glaze.get(id) ?? id) ?? [],
    ownerName: row.person ? { person: row.person } : null,
    story: `/ware/${encodeURIComponent(row.piece)}`,
  }));
  const more = found.length > f.limit;
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
    ...(more ? { more: { next: page.at(-1)!.changedSeq } } : {}),
  };
}

export const wareReport = report({ title: 'Ware', unlisted: true, input: wareFilters, run: list });
