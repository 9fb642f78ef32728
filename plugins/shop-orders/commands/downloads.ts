/** Files that are handed out by a link: granted for an order's line, and fetched. */
import { z } from 'zod';
import { command } from '../../../server/contract/plugin.ts';
import { refuse } from '../../../server/contract/streams.ts';
import { day, id } from '../../../server/contract/studio/values.ts';
import { dayAfter } from '../days.ts';
import { records } from '../events.ts';
import { itemKind } from '../state/item.ts';
import { dayOf, orderKind } from '../state/order.ts';
import { downloadKind } from '../state/shop.ts';
import { lineId, orderKey } from '../values.ts';
import { itemStream } from './items.ts';
import { noSuchOrder, orderStream } from './placing.ts';

const downloadStream = (download: string): string => `download:${download}`;

export const grantDownload = command({
  title: 'Let a buyer fetch a file',
  input: z.strictObject({
    download: id,
    order: orderKey,
    line: lineId,
    /** 30 days from now when left out. */
    until: day.optional(),
    most: z.number().int().min(1).max(100).default(5),
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
    if (!facts?.file)
      return refuse(
        'no-file',
        `${facts?.name ?? line.item} has no file to hand out; add it to the item first.`,
        'line',
      );
    const data = { ...input, item: line.item, until: input.until ?? dayAfter(dayOf(at.happenedAt), 30) };
    return [records('download.granted', [downloadStream(input.download), orderStream(input.order)], data)];
  },
});

export const handOut = command({
  title: 'Hand out a file',
  input: z.strictObject({ download: id }),
  streams: ({ download }, loaded) => {
    const { granted } = loaded.of(downloadKind, download);
    return [downloadStream(download), ...(granted ? [orderStream(granted.order)] : [])];
  },
  decide: ({ download }, streams, at) => {
    const { granted, times } = streams.latest(downloadKind, download);
    if (!granted) return refuse('no-such-download', 'There is no such download.', 'download');
    if (dayOf(at.happenedAt) > granted.until)
      return refuse('download-over', `This link could be used until ${granted.until}.`, 'download');
    if (times >= granted.most)
      return refuse(
        'download-over',
        `This link was used ${times} times, which is as often as it could be.`,
        'download',
      );
    const streamsOf = [downloadStream(download), orderStream(granted.order)];
    return [records('download.handed-out', streamsOf, { download, order: granted.order, time: times + 1 })];
  },
});
