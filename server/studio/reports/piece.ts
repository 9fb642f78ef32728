/** One piece's story, and what can be done with it next. */
import { z } from 'zod';
import type { Entry } from '../../contract/entry.ts';
import { type Answered, type Ask, report, type StoryEntry } from '../../contract/plugin.ts';
import type { StudioData } from '../../contract/studio/events.ts';
import type { Lot, Portion } from '../../contract/studio/state.ts';
import { lotOf, pieceId, portionIn } from '../../contract/studio/values.ts';
import { called } from '../piece/legal.ts';
import { pieceKind, pieceStream } from '../piece/lot.ts';
import { nextMoves } from '../piece/next.ts';
import { type Names, sentenceOf } from '../story.ts';
import { anyName, namesOf } from './names.ts';

/** The piece and what it was split from, with the seq of each split: ancestors speak only up to it. */
function lineage(lot: Lot, story: readonly StoryEntry[], piece: string): Map<string, number> {
  const speak = new Map<string, number>();
  let at: Portion | undefined = portionIn(lot, piece);
  let until = Number.POSITIVE_INFINITY;
  while (at && !speak.has(at.piece)) {
    speak.set(at.piece, until);
    const born = story.findIndex(
      ({ entry }) =>
        entry.name === 'lot.split' &&
        (entry.data as StudioData<'lot.split'>).into.some((part) => part.piece === at!.piece),
    );
    until = Math.min(until, born < 0 ? until : born);
    at = at.from ? portionIn(lot, at.from) : undefined;
  }
  return speak;
}

/** Whether the entry, at its place in the lot's story, belongs to one of those pieces. */
function concerns(
  entry: Entry,
  index: number,
  speak: ReadonlyMap<string, number>,
  portion: Portion,
): boolean {
  const told = (piece: string) => index <= (speak.get(piece) ?? -1);
  if (entry.name === 'firing.packed')
    return (entry.data as StudioData<'firing.packed'>).places.some((p) => told(p.piece));
  if (entry.name === 'firing.unpacked')
    return (entry.data as StudioData<'firing.unpacked'>).pieces.some(told);
  if (entry.name.startsWith('firing.'))
    return portion.passages.some((p) => p.firing === (entry.data as { firing: string }).firing);
  if (entry.name === 'file.attached')
    return told((entry.data as StudioData<'file.attached'>).to.slice('piece:'.length));
  if (entry.name === 'lot.split') {
    const split = entry.data as StudioData<'lot.split'>;
    return told(split.piece) || split.into.some((part) => part.piece === portion.piece);
  }
  const piece = (entry.data as { piece?: string }).piece;
  return piece !== undefined && told(piece);
}

const strikesOf = (story: readonly StoryEntry[]) =>
  new Map(
    story
      .filter(({ entry }) => entry.name === 'entry.struck')
      .map(({ entry }) => [entry.seq, (entry.data as { why?: unknown }).why]),
  );

/** @param ask what a device can answer as well, from what it keeps */
export async function piecePage(
  ask: Pick<Ask, 'state' | 'story'>,
  name: Names,
  input: { piece: string },
): Promise<Answered> {
  const lot = await ask.state(pieceKind, lotOf(input.piece));
  const portion = portionIn(lot, input.piece);
  if (!portion)
    return {
      sentence: 'There is no such piece at that time.',
      rows: [],
      notes: [],
      figures: [],
      more: { story: [], next: [] },
    };
  const all = await ask.story(pieceStream(input.piece));
  const speak = lineage(lot, all, input.piece);
  const reasons = strikesOf(all);
  const story = all
    .filter(({ entry }, index) => entry.name !== 'entry.struck' && concerns(entry, index, speak, portion))
    .map(({ entry, struckBy }) => ({
      seq: entry.seq,
      name: entry.name,
      command: entry.command,
      happenedAt: entry.happenedAt,
      recordedAt: entry.recordedAt,
      sentence: sentenceOf(entry, name, speak),
      note: (entry.data as { note?: unknown }).note ?? null,
      struckBy: struckBy ?? null,
      struckWhy: struckBy === undefined ? null : (reasons.get(struckBy) ?? null),
      firing: (entry.data as { firing?: string }).firing ?? null,
      fault: entry.name === 'fault.found' ? (entry.data as { kind: string }).kind : null,
    }))
    .toReversed();
  const others = lot.portions.filter((p) => p.piece !== portion.piece);
  return {
    sentence: `${called(portion)}: ${portion.stage.replaceAll('-', ' ')}${portion.gradings.length > 0 ? `, ${portion.gradings.at(-1)!.grade}` : ''}.`,
    rows: [
      {
        ...portion,
        clayName: name(portion.clay),
        ownerName: portion.owner.kind === 'own' ? null : { person: portion.owner.person },
        glazeNames: Object.fromEntries(
          portion.glazings.flatMap((g) => g.layers.map((l) => [l.glaze, name(l.glaze)])),
        ),
        passages: portion.passages.map((p) => ({
          ...p,
          kilnName: name(p.kiln),
          scheduleName: name(p.schedule),
        })),
      },
    ],
    notes: [],
    figures: [],
    more: {
      story,
      next: nextMoves(portion),
      siblings: others.map((p) => ({
        piece: p.piece,
        count: p.count,
        mark: p.mark ?? null,
        stage: p.stage,
        grade: p.gradings.at(-1)?.grade ?? null,
      })),
      photos: portion.photos,
    },
  };
}

export const pieceReport = report({
  title: 'A piece’s story',
  unlisted: true,
  input: z.strictObject({ piece: pieceId }),
  run: async (ask, input) => piecePage(ask, anyName(await namesOf(ask)), input),
});
