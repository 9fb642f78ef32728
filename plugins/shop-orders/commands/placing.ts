/** An order comes in. */
import { command } from '../../../server/contract/plugin.ts';
import { type Recorded, type Refusal, refuse, type Streams } from '../../../server/contract/streams.ts';
import { personStream } from '../../../server/contract/studio/state.ts';
import { handleOf } from '../../../server/contract/studio/values.ts';
import { dayAfter } from '../days.ts';
import { records } from '../events.ts';
import { itemKind } from '../state/item.ts';
import { dayOf, orderKind } from '../state/order.ts';
import { SETTINGS, SETTINGS_STREAM, shopKind } from '../state/shop.ts';
import { type Line, orderKeyOf, plainNumber, SHOP } from '../values.ts';
import { itemStream } from './items.ts';
import { type LineInput, placeInput, TEXTS } from './order-input.ts';

export const orderStream = (order: string): string => `order:${order}`;
const personOf = (person: string): string => `person:${person}`;

export const noSuchOrder = (field = 'order'): Refusal =>
  refuse(
    'no-such-order',
    'There is no such order at that time; place it first, or give a later date.',
    field,
  );

export const itemsOf = (lines: readonly LineInput[] | undefined): string[] => [
  ...new Set((lines ?? []).map(({ item }) => handleOf(item))),
];

/** Items that are sold for the first time come along: nothing is known of them but their name. */
export function newItems(lines: readonly LineInput[], streams: Streams): Recorded[] {
  const fresh = new Map<string, Recorded>();
  for (const { item: name } of lines) {
    const item = handleOf(name);
    if (streams.latest(itemKind, item).facts || fresh.has(item)) continue;
    fresh.set(item, records('item.added', [itemStream(item)], { item, facts: { name, kind: 'other' } }));
  }
  return [...fresh.values()];
}

/** Lines keep their ids where they are about the same item, in the order in which they stand. */
export function numbered<Asked extends { readonly item: string }>(
  lines: readonly Asked[],
  before: readonly Pick<Line, 'line' | 'item'>[] = [],
): (Asked & { line: string })[] {
  const left = [...before];
  let next = before.reduce((most, one) => Math.max(most, Number.parseInt(one.line, 36)), 0);
  return lines.map((asked) => {
    const item = handleOf(asked.item);
    const at = left.findIndex((one) => one.item === item);
    return { ...asked, item, line: at >= 0 ? left.splice(at, 1)[0]!.line : (++next).toString(36) };
  });
}

export const withIds = (
  lines: readonly LineInput[],
  streams: Streams,
  before: readonly Line[] = [],
): Line[] =>
  numbered(lines, before).map(({ line, item, quantity, price }) => {
    const download = streams.latest(itemKind, item).facts?.kind === 'download';
    return { line, item, quantity, ...(price ? { price } : {}), ...(download ? { download } : {}) };
  });

export function unnamed(lines: readonly LineInput[] | undefined): Refusal | undefined {
  const at = lines?.findIndex(({ item }) => handleOf(item) === '') ?? -1;
  return at < 0
    ? undefined
    : refuse('bad-name', 'An item’s name needs at least one letter or digit.', `lines.${at}.item`);
}

/** A number of its own for an order that came by mouth or letter. */
const ownNumber = (commandId: string): string => `W-${commandId.replaceAll('-', '').slice(-6).toUpperCase()}`;

export const placeOrder = command({
  title: 'Take down an order',
  input: placeInput,
  texts: [...TEXTS],
  about: (input) => input.buyer,
  /* Without a number the key hangs on the command's id, which only `decide` knows; such an order is new. */
  streams: (input) => [
    ...(input.number === undefined ? [] : [orderStream(orderKeyOf(input.number, input.source))]),
    personOf(input.buyer),
    SETTINGS_STREAM,
    ...itemsOf(input.lines).filter(Boolean).map(itemStream),
  ],
  decide: (input, streams, at) => {
    const { number: given, source = SHOP, lines: asked, buyer, way: how, ...rest } = input;
    const wrong = unnamed(asked);
    if (wrong) return wrong;
    const number = given ?? ownNumber(at.command);
    const order = orderKeyOf(number, source);
    if (given !== undefined && streams.latest(orderKind, order).placed)
      return refuse(
        'already-there',
        `Order ${plainNumber(number)} is here already, placed on ${streams.latest(orderKind, order).placed}. Change that one if something is different.`,
        'number',
      );
    const person = streams.latest(personStream, buyer);
    if (person.forgotten)
      return refuse('forgotten', 'This buyer has been forgotten; take them down anew.', 'buyer');
    const { promiseDays } = streams.of(shopKind, SETTINGS).facts;
    const promise = rest.promise ?? dayAfter(dayOf(at.happenedAt), promiseDays);
    const data = {
      ...rest,
      order,
      number: plainNumber(number),
      source,
      buyer,
      promise,
      lines: withIds(asked, streams),
      way: how,
    };
    const added: Recorded[] = person.name
      ? []
      : [{ name: 'person.added', streams: [personOf(buyer)], data: { person: buyer, name: rest.name } }];
    return [
      ...added,
      ...newItems(asked, streams),
      records('order.placed', [orderStream(order)], data, { claims: [`order:${order}`] }),
    ];
  },
});
