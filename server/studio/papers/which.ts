/** Which ware a paper is for: named pieces, a firing's, or what stands at a stage. */
import { z } from 'zod';
import { type Ask, PaperRefused } from '../../contract/plugin.ts';
import { id } from '../../contract/studio/values.ts';
import { STAGES } from '../../contract/trade.ts';
import { namesOf } from '../reports/names.ts';

/** More than this is a slip of the pen. */
export const MOST = 500;

export const whichFields = {
  /** Ids of pieces, with commas. */
  pieces: z.string().min(1).max(20_000).optional(),
  firing: id.optional(),
  stage: z.enum(STAGES).optional(),
};

export interface Which {
  readonly pieces?: string;
  readonly firing?: string;
  readonly stage?: string;
}

export interface WareRow {
  readonly piece: string;
  readonly mark: string | null;
  readonly count: number;
  readonly stage: string;
  readonly form: string | null;
  readonly clay: string | null;
  readonly owner: 'own' | 'commission' | 'student' | 'hire';
  readonly person: string | null;
  readonly grade: string | null;
  /** Names of glazes, joined by commas. */
  readonly glazes: string;
  readonly price: number | null;
  readonly secondPrice: number | null;
  readonly currency: string | null;
  readonly begunAt: string;
}

interface Found extends Omit<WareRow, 'glazes'> {
  readonly glazes: string | null;
}

/** In the order that pieces were named in, or the oldest change first. @param and a condition in SQL */
export async function wareFor(ask: Ask, { pieces, firing, stage }: Which, and = '1'): Promise<WareRow[]> {
  const named = pieces
    ?.split(',')
    .map((piece) => piece.trim())
    .filter(Boolean);
  const conditions = [and];
  const params: string[] = [];
  const where = (sql: string, ...values: string[]) => {
    conditions.push(sql);
    params.push(...values);
  };
  if (named) where(`piece IN (${named.map(() => '?').join(',') || 'NULL'})`, ...named);
  if (firing) where('piece IN (SELECT piece FROM links WHERE tag = ?)', `firing:${firing}`);
  if (stage) where('stage = ?', stage);
  const rows = await ask.query<Found>(
    `SELECT piece, mark, count, stage, form, clay, owner, person, grade, glazes, price, second_price AS secondPrice,
     currency, begun_at AS begunAt FROM ware WHERE ${conditions.join(' AND ')} ORDER BY changed_seq, piece LIMIT ${MOST + 1}`,
    params,
  );
  if (rows.length > MOST) throw new PaperRefused(`There are more than ${MOST}; name fewer pieces.`, 'pieces');
  const missing = named?.find((piece) => !rows.some((row) => row.piece === piece));
  if (missing !== undefined)
    throw new PaperRefused(`There is no such piece, or it is not to be printed here: ${missing}.`, 'pieces');
  const names = await namesOf(ask);
  const found = rows.map((row) => ({
    ...row,
    clay: row.clay === null ? null : (names.clay.get(row.clay) ?? row.clay),
    glazes: (row.glazes?.split(', ') ?? []).map((glaze) => names.glaze.get(glaze) ?? glaze).join(', '),
  }));
  return named ? found.sort((a, b) => named.indexOf(a.piece) - named.indexOf(b.piece)) : found;
}
