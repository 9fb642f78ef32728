/** What a buyer fetches by a link: the file of an order's line. */
import { handout } from '../../server/contract/handout.ts';
import { CANCELLED } from './commands/downloads.ts';
import { itemKind } from './state/item.ts';
import { orderKind } from './state/order.ts';
import { downloadKind, TAKEN_BACK } from './state/shop.ts';

export const download = handout({
  title: 'A file that was ordered',
  look: async (ask, key) => {
    const { granted, times, withdrawn } = await ask.state(downloadKind, key);
    if (!granted) return undefined;
    const [order, { facts }] = await Promise.all([
      ask.state(orderKind, granted.order),
      ask.state(itemKind, granted.item),
    ]);
    if (!facts?.file && !facts?.paper) return undefined;
    const line = order.lines.find((one) => one.line === granted.line);
    const why = withdrawn ? TAKEN_BACK : !line || line.cancelled ? CANCELLED : undefined;
    return {
      title: facts.name,
      what: facts.paper ? { paper: facts.paper } : { file: facts.file! },
      until: granted.until,
      most: granted.most,
      times,
      ...(why === undefined ? {} : { withdrawn: why }),
      order: order.number,
      ...(facts.licence === undefined ? {} : { licence: facts.licence }),
    };
  },
  record: (key, { size }) => ({
    command: 'download.hand-out',
    input: { download: key, ...(size === undefined ? {} : { paper: size }) },
  }),
});
