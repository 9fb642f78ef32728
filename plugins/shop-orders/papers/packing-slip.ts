/** What lies in the parcel, for who opens it. */
import { z } from 'zod';
import type { Block, Paper } from '../../../server/contract/paper.ts';
import { type Ask, paper } from '../../../server/contract/plugin.ts';
import { type PaperAsked, type PaperParcel, parcelsAsked, readParcels } from './asked.ts';

const input = z.strictObject({ ...parcelsAsked, paper: z.enum(['A4', 'Letter']).default('A4') });

function slip({ parcel, orders, lines }: PaperParcel, { sender }: PaperAsked, studio: string): Block[] {
  const numbers = orders.map(({ order }) => order.number).join(', ');
  const several = orders.length > 1;
  return [
    { block: 'heading', text: sender[0] ?? studio },
    ...(sender.length > 1
      ? [{ block: 'paragraph' as const, size: 'small' as const, text: sender.slice(1).join(', ') }]
      : []),
    { block: 'space', height: 4 },
    ...orders[0]!.label.map((text): Block => ({ block: 'paragraph', size: 'large', text })),
    { block: 'space', height: 4 },
    {
      block: 'facts',
      facts: [
        [several ? 'Orders' : 'Order', numbers],
        ['Placed', orders.map(({ order }) => order.placed!).sort()[0]!],
        ...(parcel.packedOn ? ([['Packed', parcel.packedOn]] as [string, string][]) : []),
      ],
    },
    {
      block: 'table',
      columns: [
        { label: 'Item' },
        ...(several ? [{ label: 'Order', width: 30 }] : []),
        { label: 'How many', align: 'end', width: 26 },
      ],
      rows: lines.map(({ name, quantity, order }) => [name, ...(several ? [order] : []), String(quantity)]),
    },
  ];
}

async function run(ask: Ask, asked: z.infer<typeof input>): Promise<Paper> {
  const found = await readParcels(ask, asked);
  const blocks = found.parcels.flatMap((one, n): Block[] => [
    ...(n > 0 ? [{ block: 'page-break' as const }] : []),
    ...slip(one, found, ask.settings.studio),
  ]);
  return { form: 'document', title: 'Packing slips', file: 'packing-slips', paper: asked.paper, blocks };
}

export const packingSlip = paper({ title: 'Packing slips', input, run });
