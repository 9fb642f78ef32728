/** Items, and how many there are of each. */
import { z } from 'zod';
import { type PaperRef, paperRef } from '../../../server/contract/handout.ts';
import { command } from '../../../server/contract/plugin.ts';
import { type Refusal, refuse, type Streams } from '../../../server/contract/streams.ts';
import { lotStream } from '../../../server/contract/studio/state.ts';
import { count, handle, handleOf, lotOf, portionIn } from '../../../server/contract/studio/values.ts';
import { freeText } from '../../../server/contract/text.ts';
import { records, shopEvents } from '../events.ts';
import { type Item, itemKind } from '../state/item.ts';
import { type ItemFacts, itemFacts } from '../values.ts';

export const itemStream = (item: string): string => `item:${item}`;

const noSuchItem = (item: string): Refusal =>
  refuse('no-such-item', `There is no item ${item} at that time; add it first.`, 'item');

/** The piece that a pot is must be one piece, here and not left. */
function wrongPiece(facts: ItemFacts, streams: Streams): Refusal | undefined {
  if (facts.piece === undefined) return undefined;
  const portion = portionIn(streams.of(lotStream, lotOf(facts.piece)), facts.piece);
  if (!portion) return refuse('no-such-piece', 'There is no such piece in the studio.', 'piece');
  if (portion.count > 1)
    return refuse(
      'not-one-piece',
      `There are ${portion.count} in that lot; split off the one that is sold.`,
      'piece',
    );
  if (portion.stage === 'left') return refuse('has-left', 'That piece has left the studio.', 'piece');
  return undefined;
}

const pieceStreams = ({ piece }: ItemFacts): string[] =>
  piece === undefined ? [] : [`piece:${lotOf(piece)}`];

function misfit(facts: ItemFacts): Refusal | undefined {
  if (facts.piece !== undefined && facts.kind !== 'pot')
    return refuse('not-a-pot', 'Only a pot or second is one piece of the studio.', 'piece');
  return undefined;
}

const fileIn = ({ file }: { readonly file?: string }): string[] => (file === undefined ? [] : [file]);

export const addItem = command({
  title: 'Add an item to the shop',
  files: fileIn,
  input: itemFacts.extend({ item: handle.optional() }),
  streams: ({ item, ...facts }) => [itemStream(item ?? handleOf(facts.name)), ...pieceStreams(facts)],
  decide: ({ item: given, ...facts }, streams) => {
    const item = given ?? handleOf(facts.name);
    if (item === '') return refuse('bad-name', 'A name needs at least one letter or digit.', 'name');
    const wrong = misfit(facts) ?? wrongPiece(facts, streams);
    return wrong ?? [records('item.added', [itemStream(item)], { item, facts })];
  },
});

export const changeItem = command({
  title: 'Change an item',
  /** A paper is named in the place of a file; null names none. */
  input: itemFacts.partial().extend({ item: handle, paper: paperRef.nullable().optional() }),
  files: fileIn,
  streams: ({ item, piece }) => [itemStream(item), ...(piece === undefined ? [] : [`piece:${lotOf(piece)}`])],
  decide: ({ item, paper, ...changes }, streams) => {
    const before = streams.of(itemKind, item).facts;
    if (!before) return noSuchItem(item);
    const facts = withPaper({ ...before, ...changes }, paper);
    const wrong = misfit(facts) ?? (changes.piece === undefined ? undefined : wrongPiece(facts, streams));
    if (wrong) return wrong;
    if (JSON.stringify(facts) === JSON.stringify(before)) return [];
    return [records('item.changed', [itemStream(item)], { item, facts })];
  },
});

/** It comes from a file or from a paper, and not from both. */
function withPaper(facts: ItemFacts, paper: PaperRef | null | undefined): ItemFacts {
  if (paper === undefined) return facts;
  const { paper: _, ...rest } = facts;
  if (paper === null) return rest;
  const { file: __, ...without } = rest;
  return { ...without, paper };
}

export const giveFile = command({
  title: 'Give an item the PDF that is handed out',
  input: shopEvents['item.file-given'].shape,
  files: fileIn,
  streams: ({ item }) => [itemStream(item)],
  decide: (input, streams) => {
    const { facts } = streams.of(itemKind, input.item);
    if (!facts) return noSuchItem(input.item);
    if (facts.file === input.file && !facts.paper) return [];
    return [records('item.file-given', [itemStream(input.item)], input)];
  },
});

const named = { item: handle, count };

/** Pots are there as pieces of the studio, and files are never used up. */
function uncountable(state: Item): Refusal | undefined {
  if (!state.facts) return noSuchItem(state.item);
  const { kind, name } = state.facts;
  if (kind === 'download') return refuse('not-counted', `${name} is a file and is not counted.`, 'item');
  if (kind === 'pot')
    return refuse('not-counted', `${name} is one piece of the studio and is not counted.`, 'item');
  return undefined;
}

const adding = (event: 'stock.printed' | 'stock.made', title: string) =>
  command({
    title,
    input: z.strictObject(named),
    streams: ({ item }) => [itemStream(item)],
    decide: (input, streams) =>
      uncountable(streams.of(itemKind, input.item)) ?? [records(event, [itemStream(input.item)], input)],
  });

export const printStock = adding('stock.printed', 'Note what was printed');
export const makeStock = adding('stock.made', 'Note what was made');

export const breakStock = command({
  title: 'Note what broke in stock',
  input: z.strictObject({ ...named, why: freeText().optional() }),
  texts: ['why'],
  streams: ({ item }) => [itemStream(item)],
  decide: (input, streams) =>
    uncountable(streams.of(itemKind, input.item)) ?? [
      records('stock.broken', [itemStream(input.item)], input),
    ],
});

export const countStock = command({
  title: 'Count the stock',
  input: z.strictObject({
    item: handle,
    counted: z.number().int().min(0).max(100_000),
    why: freeText().optional(),
  }),
  texts: ['why'],
  streams: ({ item }) => [itemStream(item)],
  decide: (input, streams) => {
    const state = streams.of(itemKind, input.item);
    const wrong = uncountable(state);
    if (wrong) return wrong;
    if (state.counted && state.stock !== input.counted && !input.why)
      return refuse(
        'say-why',
        `By the books there are ${state.stock}, and you counted ${input.counted}. Say why, as far as you know.`,
        'why',
      );
    const expected = state.counted ? { expected: state.stock } : {};
    return [records('stock.counted', [itemStream(input.item)], { ...input, ...expected })];
  },
});
