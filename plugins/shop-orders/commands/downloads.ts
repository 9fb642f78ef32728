/** Files that are handed out, by a link or with a message: granted for an order's line, fetched, taken back. */
import { z } from 'zod';
import { command } from '../../../server/contract/plugin.ts';
import { type Refusal, refuse, type Streams } from '../../../server/contract/streams.ts';
import { day, id } from '../../../server/contract/studio/values.ts';
import { freeText } from '../../../server/contract/text.ts';
import { dayAfter, dayInWords, timesInWords } from '../days.ts';
import { records } from '../events.ts';
import { itemKind } from '../state/item.ts';
import { dayOf, orderKind } from '../state/order.ts';
import { type Download, downloadKind, TAKEN_BACK } from '../state/shop.ts';
import { lineId, orderKey } from '../values.ts';
import { itemStream } from './items.ts';
import { noSuchOrder, orderStream } from './placing.ts';

const downloadStream = (download: string): string => `download:${download}`;
const streamsOf = ({ download, granted }: Download): string[] => [
  downloadStream(download),
  orderStream(granted!.order),
];

/** How long and how often, when nothing is said. */
const USUAL_DAYS = 30;
const USUAL_TIMES = 5;

export const grantDownload = command({
  title: 'Let a buyer fetch a file',
  input: z.strictObject({
    download: id,
    order: orderKey,
    line: lineId,
    /** 30 days from now when left out. */
    until: day.optional(),
    most: z.number().int().min(1).max(100).default(USUAL_TIMES),
  }),
  streams: ({ download, order }, loaded) => [
    downloadStream(download),
    orderStream(order),
    ...loaded.of(orderKind, order).lines.map((line) => itemStream(line.item)),
  ],
  decide: (input, streams, at) => {
    const order = streams.of(orderKind, input.order);
    if (!order.placed) return noSuchOrder();
    const line = order.lines.find((one) => one.line === input.line && !one.cancelled);
    if (!line) return refuse('no-such-line', 'There is no such line in this order.', 'line');
    const { facts } = streams.of(itemKind, line.item);
    if (!facts?.file && !facts?.paper)
      return refuse(
        'no-file',
        `${facts?.name ?? line.item} has no file to hand out; add it to the item first.`,
        'line',
      );
    const today = dayOf(at.happenedAt);
    const until = input.until ?? dayAfter(today, USUAL_DAYS);
    if (until < today)
      return refuse('over-already', `${dayInWords(until)} is over; give a later last day.`, 'until');
    const data = { ...input, item: line.item, until };
    return [records('download.granted', [downloadStream(input.download), orderStream(input.order)], data)];
  },
});

/** A download with its order, so that a handing-out stands in the story of both. */
const withOrder = ({ download }: { readonly download: string }, loaded: Streams): string[] => {
  const { granted } = loaded.of(downloadKind, download);
  return [downloadStream(download), ...(granted ? [orderStream(granted.order)] : [])];
};

const noSuchDownload = (): Refusal => refuse('no-such-download', 'There is no such download.', 'download');

export const handOut = command({
  title: 'Hand out a file',
  input: z.strictObject({
    download: id,
    how: z.enum(['link', 'message']).default('link'),
    paper: z.string().trim().min(1).max(40).optional(),
  }),
  streams: withOrder,
  decide: ({ download, how, paper }, streams, at) => {
    const state = streams.latest(downloadKind, download);
    const { granted, times, withdrawn } = state;
    if (!granted) return noSuchDownload();
    const over = (sentence: string) => refuse('download-over', sentence, 'download');
    if (withdrawn) return over(TAKEN_BACK);
    const line = streams.latest(orderKind, granted.order).lines.find((one) => one.line === granted.line);
    if (!line || line.cancelled) return over(CANCELLED);
    if (dayOf(at.happenedAt) > granted.until)
      return over(`This link could be used until ${dayInWords(granted.until)}.`);
    if (times >= granted.most)
      return over(`This link was used ${timesInWords(times)}, which is as often as it could be.`);
    const data = { download, order: granted.order, time: times + 1, how, ...(paper ? { paper } : {}) };
    return [records('download.handed-out', streamsOf(state), data)];
  },
});

/** Of a link whose order was cancelled, for whoever opens it. */
export const CANCELLED = 'What this link belonged to was cancelled. Write to whoever sent it to you.';

export const withdrawDownload = command({
  title: 'Take a link back',
  input: z.strictObject({ download: id, why: freeText().optional() }),
  texts: ['why'],
  streams: withOrder,
  decide: (input, streams) => {
    const state = streams.of(downloadKind, input.download);
    if (!state.granted) return noSuchDownload();
    if (state.withdrawn) return [];
    const data = { ...input, order: state.granted.order };
    return [records('download.withdrawn', streamsOf(state), data)];
  },
});
