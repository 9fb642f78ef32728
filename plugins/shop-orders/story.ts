/** An entry as a sentence of an order's, a parcel's or an item's story. */
import { moneyInWords } from '../../server/contract/amounts.ts';
import type { StoryEntry } from '../../server/contract/plugin.ts';
import { dayInWords, timesInWords } from './days.ts';
import type { ShopData, ShopEvent } from './events.ts';

/** Names of items by handle. */
export type Named = (item: string) => string;

type Say<Name extends ShopEvent> = (data: ShopData<Name>, name: Named) => string;

const all = (lines: readonly { item: string; quantity: number }[], name: Named): string =>
  lines.map(({ item, quantity }) => `${quantity} × ${name(item)}`).join(', ');

const TOLD: Readonly<Record<ShopData<'order.told'>['message'], string>> = {
  received: 'The buyer was written to: the order is here',
  posted: 'The buyer was written to: it has been posted',
  'has-it-come': 'The buyer was asked whether it has come',
  download: 'The buyer was sent the link',
};

const WHO: Readonly<Record<ShopData<'parcel.arrived'>['told'], string>> = {
  buyer: 'the buyer said so',
  tracking: 'the post says so',
  file: 'by the file',
};

const BY: Readonly<Record<ShopData<'order.placed'>['way'], string>> = {
  hand: '',
  file: ', from a file',
  feed: ', from the shop',
};

const MAY = { keep: 'kept', show: 'shown', name: 'shown with their name' } as const;
const listed = (words: readonly string[]): string => new Intl.ListFormat('en-GB').format([...words]);

const SAY: { readonly [Name in ShopEvent]?: Say<Name> } = {
  'item.added': () => 'Added to the shop',
  'item.changed': () => 'What is known of it was changed',
  'stock.printed': ({ count }) => `${count} printed`,
  'stock.made': ({ count }) => `${count} made`,
  'stock.broken': ({ count }) => `${count} broke`,
  'stock.counted': ({ counted, expected }) =>
    expected === undefined || expected === counted
      ? `Counted: ${counted}`
      : `Counted: ${counted}; the books said ${expected}`,
  'order.placed': ({ lines, way }, name) => `Placed: ${all(lines, name)}${BY[way]}`,
  'order.changed': ({ lines, way }, name) => `Changed${lines ? `: ${all(lines, name)}` : ''}${BY[way]}`,
  'order.change-came': ({ cancelled }) =>
    cancelled ? 'The shop says that it is cancelled' : 'The shop says that it is different now',
  'order.change-declined': () => 'Left as it was',
  'order.cancelled': ({ lines }) => `Cancelled: ${lines.length === 1 ? '1 line' : `${lines.length} lines`}`,
  'order.refunded': ({ amount }) => `Paid back: ${moneyInWords(amount)}`,
  'order.replaced': () => 'To be sent again',
  'order.noted': () => 'Note',
  'order.told': ({ message }) => TOLD[message],
  'order.picture-came': ({ allows }) =>
    `The buyer sent a picture. It may be ${listed(allows.map((one) => MAY[one]))}`,
  'parcel.packed': ({ contents, anyway }, name) =>
    `Packed: ${all(contents, name)}${anyway ? ', though the books say that there are not enough' : ''}`,
  'parcel.unpacked': () => 'Taken apart again',
  'parcel.posted': ({ service, number, cost }) =>
    `Posted${service ? ` by ${service}` : ''}${number ? `, number ${number}` : ''}${cost ? `, for ${moneyInWords(cost)}` : ''}`,
  'parcel.tracked': ({ said }) => `The post says: ${said}`,
  'parcel.given-time': ({ until }) => `Left to come until ${dayInWords(until)}`,
  'parcel.arrived': ({ told }) => `It has come: ${WHO[told]}`,
  'parcel.assumed-arrived': ({ after }) => `Taken to have come: nothing was heard for ${after} days`,
  'parcel.lost': () => 'Lost',
  'parcel.came-back': ({ sound }) => (sound ? 'It came back, sound' : 'It came back, not fit to be sold'),
  'item.file-given': ({ called }) => `It was given the file ${called}`,
  'download.granted': ({ until, most }) =>
    `It may be fetched until ${dayInWords(until)}, at most ${timesInWords(most)}`,
  'download.handed-out': ({ time, how, paper }) =>
    `${how === 'message' ? 'The file was attached to a message' : 'The file was fetched by its link'}${paper ? `, for ${paper}` : ''} (${time})`,
  'download.withdrawn': () => 'The link was taken back',
};

const noteOf = (data: unknown): unknown => {
  const { note, why } = data as { note?: unknown; why?: unknown };
  return note ?? why ?? null;
};

/** Newest first, in the shape that the page tells every story in. */
export function storyLines(story: readonly StoryEntry[], name: Named) {
  const reasons = new Map(
    story
      .filter(({ entry }) => entry.name === 'entry.struck')
      .map(({ entry }) => [(entry.data as { seq: number }).seq, (entry.data as { why?: unknown }).why]),
  );
  return story
    .filter(({ entry }) => entry.name !== 'entry.struck')
    .map(({ entry, struckBy }) => {
      const say = SAY[entry.name as ShopEvent] as Say<ShopEvent> | undefined;
      return {
        seq: entry.seq,
        name: entry.name,
        command: entry.command,
        happenedAt: entry.happenedAt,
        recordedAt: entry.recordedAt,
        sentence: say ? say(entry.data as ShopData<ShopEvent>, name) : entry.name.replace('.', ' '),
        note: noteOf(entry.data),
        struckBy: struckBy ?? null,
        struckWhy: struckBy === undefined ? null : (reasons.get(entry.seq) ?? null),
      };
    })
    .toReversed();
}
