/** Grading: a lot of mixed grades is split by grade in the same append. */
import { z } from 'zod';
import { command } from '../../contract/plugin.ts';
import { type Recorded, refuse } from '../../contract/streams.ts';
import type { FoundFault } from '../../contract/studio/state.ts';
import { id, money, pieceId } from '../../contract/studio/values.ts';
import { GRADES, type Grade } from '../../contract/trade.ts';
import { gradedBeside } from './beside.ts';
import { lastPassage, pieceStream } from './lot.ts';
import { noSuchPiece, partId, portionOf, records } from './part.ts';

const some = z.number().int().min(0).max(100_000).default(0);

/** Of a fault's pieces, how many are wasters and how many seconds: wasters are filled first, then seconds. */
export function faultByGrade(faulty: number, waster: number, second: number): Record<Grade, number> {
  const wasters = Math.min(faulty, waster);
  const seconds = Math.min(faulty - wasters, second);
  return { waster: wasters, second: seconds, first: faulty - wasters - seconds };
}

/** The faults of the firing being judged go to the spoiled pieces; older ones stay where they are. */
const carried = (faults: readonly FoundFault[], counts: Record<Grade, number>, grade: Grade) =>
  faults.flatMap((fault) => {
    const n = faultByGrade(fault.count, counts.waster, counts.second)[grade];
    return n > 0 ? [{ entry: fault.seq, count: n }] : [];
  });

/** The grades given, each with its pieces; the first named keeps the lot's own id unless some stay ungraded. */
function parts(all: number, counts: Readonly<Record<Grade, number>>) {
  const given = GRADES.filter((g) => counts[g] > 0);
  const total = given.reduce((sum, g) => sum + counts[g], 0);
  const keeps = total === all ? given[0] : undefined;
  return { keeps, splits: given.filter((g) => g !== keeps).toReversed() };
}

/** Under which id the pieces of each grade go on, once the command has graded a piece or lot of `all`. */
export function piecesByGrade(
  piece: string,
  all: number,
  counts: Readonly<Record<Grade, number>>,
  command: string,
): Partial<Record<Grade, string>> {
  const { keeps, splits } = parts(all, counts);
  const split = splits.map((g, n) => [g, partId(piece, { command }, n)] as const);
  return Object.fromEntries(keeps ? [[keeps, piece], ...split] : split);
}

export const grade = command({
  title: 'Grade',
  input: z.strictObject({
    piece: pieceId,
    first: some,
    second: some,
    waster: some,
    /** The firing that is judged; the last it came out of when left out. */
    firing: id.optional(),
    /** Price each, of the firsts and of the seconds. */
    price: money.optional(),
    secondPrice: money.optional(),
  }),
  streams: (input) => [pieceStream(input.piece)],
  beside: gradedBeside,
  decide: (input, streams, at) => {
    const portion = portionOf(streams, input.piece);
    if (!portion) return noSuchPiece();
    const counts = { first: input.first, second: input.second, waster: input.waster };
    const total = input.first + input.second + input.waster;
    if (total === 0) return refuse('nothing-graded', 'Say how many are firsts, seconds or wasters.', 'first');
    if (total > portion.count)
      return refuse('too-many', `${total} are graded, but there are only ${portion.count} of them.`, 'first');
    const { keeps, splits } = parts(portion.count, counts);
    const stream = [pieceStream(input.piece)];
    const firing = input.firing ?? lastPassage(portion)?.firing;
    const judge = (piece: string, g: Grade): Recorded => {
      const price = g === 'first' ? input.price : g === 'second' ? input.secondPrice : undefined;
      const none = { first: 0, second: 0, waster: 0 };
      return records('piece.graded', stream, {
        piece,
        ...none,
        [g]: counts[g],
        ...(firing ? { firing } : {}),
        ...(price ? { price } : {}),
      });
    };
    const into = splits.map((g, n) => ({
      piece: partId(input.piece, at, n),
      count: counts[g],
      faults: carried(portion.faults, counts, g),
    }));
    return [
      ...(into.length > 0 ? [records('lot.split', stream, { piece: input.piece, into })] : []),
      ...(keeps ? [judge(input.piece, keeps)] : []),
      ...splits.map((g, n) => judge(into[n]!.piece, g)),
    ];
  },
});
