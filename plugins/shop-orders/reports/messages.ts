/** Drafts of messages to a buyer, in plain text: the user reads, changes and sends them. */

import { moneyInWords } from '../../../server/contract/amounts.ts';
import { longDayText } from '../../../server/contract/reports/words.ts';
import { timesInWords } from '../days.ts';
import { countryName } from '../post/countries.ts';
import type { Granted, Order, Sent } from '../state/order.ts';

export interface Draft {
  readonly message: 'received' | 'posted' | 'has-it-come' | 'download';
  readonly parcel?: string;
  readonly subject: string;
  readonly text: string;
}

export interface Writing {
  readonly order: Order;
  readonly name: string | null;
  readonly studio: string;
  readonly today: string;
  /** Names by item. */
  readonly items: ReadonlyMap<string, { readonly name: string }>;
}

function letter({ name, studio }: Writing, ...paragraphs: readonly string[]): string {
  return [`Hello${name ? ` ${name}` : ''},`, ...paragraphs, `Kind regards\n${studio}`].join('\n\n');
}

const list = ({ order, items }: Writing): string =>
  order.lines
    .filter((line) => !line.cancelled)
    .map((line) => {
      const price = line.price
        ? `, ${moneyInWords({ ...line.price, amount: line.price.amount * line.quantity })}`
        : '';
      return `  ${line.quantity} × ${items.get(line.item)?.name ?? line.item}${price}`;
    })
    .join('\n');

const received = (writing: Writing): Draft => ({
  message: 'received',
  subject: `Your order ${writing.order.number}`,
  text: letter(
    writing,
    `Your order ${writing.order.number} of ${longDayText(writing.order.placed!)} has come in. This is what I have noted:`,
    list(writing),
    `I will post it by ${longDayText(writing.order.promise)}.`,
  ),
});

const byWhat = ({ service, number }: Sent): string =>
  `${service ? ` by ${service}` : ''}${number ? `. Its number is ${number}` : ''}`;

const posted = (writing: Writing, sent: Sent): Draft => ({
  message: 'posted',
  parcel: sent.parcel,
  subject: `Your order ${writing.order.number} is in the post`,
  text: letter(
    writing,
    `Your order ${writing.order.number} was posted to ${countryName(writing.order.country)} on ${longDayText(sent.postedAt!)}${byWhat(sent)}.`,
    'A line to say that it has come would help me to know how long the post takes.',
  ),
});

const hasItCome = (writing: Writing, sent: Sent): Draft => ({
  message: 'has-it-come',
  parcel: sent.parcel,
  subject: `Has your order ${writing.order.number} come?`,
  text: letter(
    writing,
    `Your order ${writing.order.number} was posted on ${longDayText(sent.postedAt!)}${byWhat(sent)}. Has it come?`,
    'If not, please look at the address on your order and ask at your post office; then we will find a way.',
  ),
});

/** The page puts the address in, which knows where the world reaches this server. */
export const linkMark = (download: string): string => `{link:${download}}`;

const isOpen = ({ until, most, times, withdrawn }: Granted, today: string): boolean =>
  !withdrawn && until >= today && times < most;

/** Every file of the order in one message: those that went with a message as attached, the others by their links. */
function download(writing: Writing): Draft[] {
  const { order, items, today } = writing;
  const named = ({ line }: Granted): string => {
    const item = order.lines.find((one) => one.line === line)?.item ?? '';
    return items.get(item)?.name ?? item;
  };
  const attached = order.downloads.filter((it) => it.attached && !it.withdrawn);
  const byLink = order.downloads.filter((it) => !it.attached && isOpen(it, today));
  if (attached.length + byLink.length === 0) return [];
  return [
    {
      message: 'download',
      subject: `The files of your order ${order.number}`,
      text: letter(
        writing,
        'Here is what you ordered as a file.',
        ...(attached.length > 0
          ? [`Attached to this message: ${[...new Set(attached.map(named))].join(', ')}.`]
          : []),
        ...byLink.map(
          (it) =>
            `${named(it)}:\n${linkMark(it.download)}\nIt can be fetched ${timesInWords(it.most - it.times)}, until ${longDayText(it.until)}.`,
        ),
        'Print it at 100 %, without fitting it to the page, and check the printed ruler with one of your own.',
      ),
    },
  ];
}

/** Those that fit how the order stands. */
export function drafts(writing: Writing): Draft[] {
  const { parcels } = writing.order;
  const away = parcels.filter((sent) => sent.postedAt !== undefined);
  return [
    received(writing),
    ...away.map((sent) => posted(writing, sent)),
    ...away
      .filter((sent) => sent.state === 'posted' || sent.state === 'assumed')
      .map((sent) => hasItCome(writing, sent)),
    ...download(writing),
  ];
}
