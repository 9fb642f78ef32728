/** Pictures that buyers sent: those that may be shown, or all of one piece. */
import { z } from 'zod';
import { type Answered, type Ask, report } from '../../../server/contract/plugin.ts';
import { personStream } from '../../../server/contract/studio/state.ts';
import { pieceId } from '../../../server/contract/studio/values.ts';
import { nothing } from './order.ts';

const input = z.strictObject({
  /** With it, those of this pot that may be kept as well: they are for the studio's own eyes. */
  piece: pieceId.optional(),
  after: z.coerce.number().int().min(1).optional(),
});
const PAGE = 60;

interface Kept {
  readonly order: string;
  readonly buyer: string;
  readonly sha256: string;
  readonly width: number | null;
  readonly height: number | null;
  readonly piece: string | null;
  readonly show: number;
  readonly name: number;
  readonly seq: number;
  readonly day: string;
}

async function run(ask: Ask, { piece, after }: z.infer<typeof input>): Promise<Answered> {
  const rows = await ask.query<Kept>(
    `SELECT order_key AS "order", buyer, sha256, width, height, piece, show, name, seq, day FROM pictures
     WHERE ${piece ? 'piece = ?1' : 'show = 1 AND ?1 IS NULL'} AND seq < ?2 ORDER BY seq DESC LIMIT ${PAGE + 1}`,
    [piece ?? null, after ?? Number.MAX_SAFE_INTEGER],
  );
  const page = rows.slice(0, PAGE);
  const buyers = [...new Set(page.map(({ buyer }) => buyer))];
  const known = await Promise.all(buyers.map((buyer) => ask.state(personStream, buyer)));
  const gone = new Set(buyers.filter((_, n) => known[n]!.forgotten));
  /* A forgotten buyer's pictures are erased; one that is kept for another reason is not shown as theirs. */
  const there = page.filter(({ buyer }) => !gone.has(buyer));
  const shown = there.map(({ order, buyer, day, show, name, ...row }) => ({
    ...row,
    at: day,
    order,
    show: show === 1,
    /* Named only where the buyer allows it. */
    buyer: name === 1 ? { person: buyer } : null,
    behind: `/post/orders/${order.split('/').map(encodeURIComponent).join('/')}`,
  }));
  return {
    ...nothing(),
    sentence: shown.length === 1 ? '1 picture.' : `${shown.length || 'No'} pictures.`,
    rows: shown,
    more: { next: rows.length > PAGE ? rows[PAGE - 1]!.seq : null },
  };
}

export const buyersPictures = report({
  title: 'Pictures that buyers sent',
  unlisted: true,
  input,
  run,
});
