/**
 * Looking a piece over as it comes out of the kiln: in one command which of a lot are good, which have
 * what fault, what they are graded and whether they are mended, so that nothing of it is half recorded.
 */
import { z } from 'zod';
import type { At } from '../../contract/plugin.ts';
import { command } from '../../contract/plugin.ts';
import { type Recorded, type Refusal, refuse, type Streams } from '../../contract/streams.ts';
import { count, grade, id, pieceId, word } from '../../contract/studio/values.ts';
import { SETTINGS_STREAM, unknownWord } from '../materials/known.ts';
import { lookedOverBeside } from './beside.ts';
import { lastPassage, pieceStream } from './lot.ts';
import { noSuchPiece, partId, portionOf, records } from './part.ts';

const seen = z.strictObject({
  kind: word,
  zone: word.optional(),
  severity: z.enum(['slight', 'plain', 'bad']).optional(),
  /** Largest extent in mm. */
  size: z.number().positive().max(2_000).optional(),
});

const input = z.strictObject({
  piece: pieceId,
  /** The firing that is judged; the last it came out of when left out. */
  firing: id.optional(),
  /** Pieces of the lot that are alike; those in no part stay as they are. */
  parts: z
    .array(
      z.strictObject({
        count,
        /** Left out, they stay ungraded: bisque ware that goes on to glazing. */
        grade: grade.optional(),
        faults: z.array(seen).max(20).optional(),
        /** What is done about it. */
        repair: word.optional(),
      }),
    )
    .min(1)
    .max(50),
});
export type LookOver = z.input<typeof input>;
type Part = LookOver['parts'][number];

/** A word that nobody knows, or a part of which nothing is said. */
function wrongIn(streams: Streams, parts: readonly Part[]): Refusal | undefined {
  for (const [n, part] of parts.entries()) {
    const at = `parts.${n}`;
    const faults = part.faults ?? [];
    if (!part.grade && !part.repair && faults.length === 0)
      return refuse('nothing-seen', 'Say what is seen on them, or how they are graded.', at);
    for (const [k, fault] of faults.entries()) {
      const unknown =
        unknownWord(streams, 'fault', fault.kind, `${at}.faults.${k}.kind`) ??
        unknownWord(streams, 'zone', fault.zone, `${at}.faults.${k}.zone`);
      if (unknown) return unknown;
    }
    const unknown = unknownWord(streams, 'repair', part.repair, `${at}.repair`);
    if (unknown) return unknown;
  }
  return undefined;
}

/** Under which id each part goes on: the largest keeps the lot's own, unless some of the lot are in no part. */
export function idsOf(piece: string, all: number, parts: readonly Part[], at: Pick<At, 'command'>): string[] {
  const said = parts.reduce((sum, part) => sum + part.count, 0);
  const largest = Math.max(...parts.map((part) => part.count));
  const keeps = said === all ? parts.findIndex((part) => part.count === largest) : -1;
  let n = 0;
  return parts.map((_, index) => (index === keeps ? piece : partId(piece, at, n++)));
}

function judged(piece: string, part: Part, firing: string | undefined): Recorded[] {
  const stream = [pieceStream(piece)];
  const from = firing ? { firing } : {};
  const none = { first: 0, second: 0, waster: 0 };
  const cause = part.faults?.[0]?.kind;
  return [
    ...(part.faults ?? []).map((fault) =>
      records('fault.found', stream, { piece, ...from, ...fault, count: part.count }),
    ),
    ...(part.grade
      ? [records('piece.graded', stream, { piece, ...from, ...none, [part.grade]: part.count })]
      : []),
    ...(part.repair
      ? [
          records('repair.decided', stream, {
            piece,
            count: part.count,
            method: part.repair,
            ...(cause ? { fault: cause } : {}),
          }),
        ]
      : []),
  ];
}

export const lookOver = command({
  title: 'Look over on drawing the kiln',
  input,
  streams: (asked) => [pieceStream(asked.piece), SETTINGS_STREAM],
  beside: lookedOverBeside,
  decide: (asked, streams, at) => {
    const wrong = wrongIn(streams, asked.parts);
    if (wrong) return wrong;
    const portion = portionOf(streams, asked.piece);
    if (!portion) return noSuchPiece();
    const said = asked.parts.reduce((sum, part) => sum + part.count, 0);
    if (said > portion.count)
      return refuse('too-many', `${said} are looked over, but there are only ${portion.count}.`, 'parts');
    const firing = asked.firing ?? lastPassage(portion)?.firing;
    const ids = idsOf(asked.piece, portion.count, asked.parts, at);
    const into = asked.parts.flatMap((part, n) =>
      ids[n] === asked.piece ? [] : [{ piece: ids[n]!, count: part.count }],
    );
    const stream = [pieceStream(asked.piece)];
    return [
      ...(into.length > 0 ? [records('lot.split', stream, { piece: asked.piece, into })] : []),
      ...asked.parts.flatMap((part, n) => judged(ids[n]!, part, firing)),
    ];
  },
});
