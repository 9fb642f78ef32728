/** Pictures: of one glaze, firing or piece; and the wall of them, a row for each glaze, glaze on clay, or firing. */
import { z } from 'zod';
import { type Answered, type Ask, report } from '../../contract/plugin.ts';
import { anyName, type NameTable, namesOf } from './names.ts';

const BY = ['glaze', 'glaze-on-clay', 'firing'] as const;
type By = (typeof BY)[number];

interface PictureRow {
  seq: number;
  sha256: string;
  at: string;
  piece: string | null;
  mark: string | null;
  form: string | null;
  count: number | null;
  clay: string | null;
  glazes: string | null;
  firing: string | null;
  grade: string | null;
  fault: string | null;
  repair: string | null;
  shows: string | null;
  width: number | null;
  height: number | null;
}

const FIELDS =
  'p.seq, p.sha256, p.at, p.piece, p.mark, p.form, p.count, p.clay, p.glazes, p.firing, p.grade, p.fault, p.repair, p.shows, p.width, p.height';

/** Pictures of a firing as a whole: no piece. */
const OF_FIRINGS = `SELECT j.value ->> 'seq' AS seq, j.value ->> 'sha256' AS sha256, j.value ->> 'at' AS at,
  NULL AS piece, NULL AS mark, NULL AS form, NULL AS count, NULL AS clay, NULL AS glazes, f.firing AS firing,
  NULL AS grade, NULL AS fault, NULL AS repair, NULL AS shows, j.value ->> 'width' AS width, j.value ->> 'height' AS height
  FROM firings AS f, json_each(f.photos) AS j`;

function told(rows: readonly PictureRow[], table: NameTable) {
  const name = anyName(table);
  return rows.map(({ clay, glazes, ...row }) => ({
    ...row,
    clayName: clay === null ? null : name(clay),
    glazeNames: glazes === null ? [] : glazes.split(', ').map((glaze) => name(glaze)),
  }));
}

const listInput = z.strictObject({
  by: z.enum(BY).optional(),
  /** Of a glaze its handle, of a glaze on a clay 'glaze|clay', of a firing its id. */
  key: z.string().max(200).optional(),
  piece: z.string().max(60).optional(),
  after: z.coerce.number().int().min(0).optional(),
  limit: z.coerce.number().int().min(1).max(200).default(48),
});

/** The pictures by what is asked, one of which has the picture's entry as `seq`. */
function chosen({ by, key, piece }: z.infer<typeof listInput>): { sql: string; params: string[] } {
  if (piece !== undefined)
    return { sql: `SELECT ${FIELDS} FROM pictures AS p WHERE p.piece = ?`, params: [piece] };
  if (by === undefined || key === undefined)
    return { sql: `SELECT ${FIELDS} FROM pictures AS p UNION ALL ${OF_FIRINGS}`, params: [] };
  const tagged = `SELECT ${FIELDS} FROM picture_tags AS t JOIN pictures AS p ON p.seq = t.seq WHERE t.by = ? AND t.key = ?`;
  return by === 'firing'
    ? { sql: `${tagged} UNION ALL ${OF_FIRINGS} WHERE f.firing = ?`, params: [by, key, key] }
    : { sql: tagged, params: [by, key] };
}

async function list(ask: Ask, input: z.infer<typeof listInput>): Promise<Answered> {
  const { sql, params } = chosen(input);
  const found = await ask.query<PictureRow>(
    `SELECT * FROM (${sql}) WHERE ? = 0 OR seq < ? ORDER BY seq DESC LIMIT ?`,
    [...params, input.after ?? 0, input.after ?? 0, input.limit + 1],
  );
  const names = await namesOf(ask);
  const page = found.slice(0, input.limit);
  const title = input.by && input.key ? await nameOf(ask, names, input.by, input.key) : null;
  return {
    sentence:
      page.length === 0 ? 'No pictures here yet.' : `${page.length} picture${page.length > 1 ? 's' : ''}.`,
    rows: told(page, names),
    notes: [],
    figures: [
      {
        figure: 'table',
        title: 'Pictures',
        columns: [
          { field: 'at', label: 'Taken', kind: 'day' },
          { field: 'mark', label: 'Mark', kind: 'mark' },
          { field: 'form', label: 'Form', kind: 'text' },
        ],
      },
    ],
    more: { title, ...(found.length > input.limit ? { next: page.at(-1)!.seq } : {}) },
  };
}

async function nameOf(ask: Ask, names: NameTable, by: By, key: string): Promise<string> {
  if (by === 'firing') {
    const [firing] = await ask.query<{ label: string | null; kiln: string | null; day: string | null }>(
      'SELECT label, kiln, coalesce(ended_at, packed_at) AS day FROM firings WHERE firing = ?',
      [key],
    );
    return (
      firing?.label ??
      [names.kiln.get(firing?.kiln ?? '') ?? firing?.kiln, firing?.day?.slice(0, 10)]
        .filter(Boolean)
        .join(', ')
    );
  }
  const name = anyName(names);
  return key
    .split('|')
    .map((each) => name(each))
    .join(' on ');
}

/** How many pictures of each are shown on the wall. */
const SHOWN = 6;
const wallInput = z.strictObject({ by: z.enum(BY).default('glaze') });

async function wall(ask: Ask, { by }: z.infer<typeof wallInput>): Promise<Answered> {
  const all =
    by === 'firing'
      ? `SELECT t.key AS key, p.* FROM picture_tags AS t JOIN (SELECT ${FIELDS} FROM pictures AS p) AS p ON p.seq = t.seq WHERE t.by = 'firing' UNION ALL SELECT o.firing AS key, o.* FROM (${OF_FIRINGS}) AS o`
      : `SELECT t.key AS key, ${FIELDS} FROM picture_tags AS t JOIN pictures AS p ON p.seq = t.seq WHERE t.by = '${by}'`;
  const found = await ask.query<PictureRow & { key: string; place: number; many: number }>(
    `SELECT * FROM (SELECT *, row_number() OVER (PARTITION BY key ORDER BY seq DESC) AS place, count(*) OVER (PARTITION BY key) AS many FROM (${all}))
     WHERE place <= ${SHOWN} ORDER BY key, place`,
  );
  const names = await namesOf(ask);
  const keys = [...new Set(found.map((row) => row.key))];
  const rows = await Promise.all(
    keys.map(async (key) => {
      const mine = found.filter((row) => row.key === key);
      const pictures = told(
        mine.map(({ key: _, place: __, many: ___, ...row }) => row),
        names,
      );
      return {
        key,
        name: await nameOf(ask, names, by, key),
        many: mine[0]!.many,
        newest: mine[0]!.seq,
        pictures,
      };
    }),
  );
  rows.sort((a, b) => (by === 'firing' ? b.newest - a.newest : a.name.localeCompare(b.name)));
  return {
    sentence: rows.length === 0 ? 'No pictures here yet.' : `Pictures of ${rows.length}.`,
    rows,
    notes: [],
    figures: [
      {
        figure: 'table',
        title: 'Pictures',
        columns: [
          { field: 'name', label: 'Of', kind: 'text' },
          { field: 'many', label: 'Pictures', kind: 'count' },
        ],
      },
    ],
  };
}

export const picturesReport = report({ title: 'Pictures', unlisted: true, input: listInput, run: list });
export const pictureWallReport = report({
  title: 'The wall of pictures',
  unlisted: true,
  input: wallInput,
  run: wall,
});
