/** Cards to stand beside a piece on the shelf: what it is, its glazes and its price. */
import { z } from 'zod';
import { moneyInWords } from '../../contract/amounts.ts';
import type { Mark } from '../../contract/paper.ts';
import { PaperRefused, paper } from '../../contract/plugin.ts';
import { capital } from '../../contract/reports/words.ts';
import { gridFields, gridSheets, type Place } from './grid.ts';
import { MOST, type WareRow, wareFor, whichFields } from './which.ts';

/** The studio's own, graded and not a waster, with a price. */
const FOR_SALE = "stage = 'graded' AND owner = 'own' AND grade IN ('first', 'second') AND price IS NOT NULL";

export const priceCards = paper({
  title: 'Price cards',
  input: z.strictObject({
    ...whichFields,
    ...gridFields,
    columns: gridFields.columns.default(2),
    rows: gridFields.rows.default(5),
    left: gridFields.left.default(15),
    top: gridFields.top.default(13),
    across: gridFields.across.default(0),
    down: gridFields.down.default(0),
    /** A card for each piece of a lot, and not one for all of it. */
    each: z.enum(['yes', 'no']).default('no'),
  }),
  run: async (ask, { pieces, firing, stage, each, ...grid }) => {
    const ware = await wareFor(ask, { pieces, firing, stage }, FOR_SALE);
    if (ware.length === 0) throw new PaperRefused('Nothing that is graded has a price yet.', 'pieces');
    const cards = each === 'yes' ? ware.flatMap((row) => Array.from({ length: row.count }, () => row)) : ware;
    if (cards.length > MOST)
      throw new PaperRefused(`That would be ${cards.length} cards; name fewer pieces.`, 'each');
    return {
      form: 'sheets',
      title: 'Price cards',
      file: 'price-cards',
      sheets: gridSheets(cards, grid, card, true),
    };
  },
});

/** A second is offered for its own price where it has one. */
export function offeredFor({ grade, price, secondPrice, currency }: WareRow): string {
  const amount = grade === 'second' ? (secondPrice ?? price) : price;
  return moneyInWords({ amount: amount!, currency: currency! });
}

function card(row: WareRow, { width, height }: Place): Mark[] {
  const pad = Math.min(6, height / 7);
  const room = width - 2 * pad;
  const line = { x: pad, width: room, fit: 'shrink', least: 1.8 } as const;
  const about = [row.glazes, row.clay].filter((it) => it !== null && it !== '').join('\n');
  const price = Math.min(10, height * 0.2);
  return [
    {
      mark: 'words',
      text: capital(row.form ?? 'piece'),
      y: pad,
      size: Math.min(6, height * 0.12),
      weight: 'bold',
      ...line,
      height: height * 0.18,
    },
    {
      mark: 'words',
      text: about,
      y: pad + height * 0.2,
      size: Math.min(3.6, height * 0.075),
      ...line,
      height: height * 0.28,
    },
    {
      mark: 'words',
      text: offeredFor(row),
      y: height - pad - price * 1.3,
      size: price,
      weight: 'bold',
      ...line,
      height: price * 1.3,
      vertical: 'bottom',
      leading: 1.1,
    },
    {
      mark: 'words',
      text: [row.grade === 'second' ? 'second' : '', row.mark ?? ''].filter(Boolean).join('\n'),
      y: height - pad - price * 1.3,
      size: 3,
      ...line,
      height: price * 1.3,
      align: 'right',
      vertical: 'bottom',
    },
  ];
}
