/** Address labels: one on a page of its own size, or many on sheets of any grid, measured in mm. */
import { z } from 'zod';
import { type Mark, PAPERS, type Paper, type Sheet } from '../../../server/contract/paper.ts';
import { type Ask, PaperRefused, paper } from '../../../server/contract/plugin.ts';
import { type PaperAsked, type PaperParcel, parcelsAsked, readParcels } from './asked.ts';

const mm = (fallback: number) => z.coerce.number().min(0).max(500).default(fallback);
const input = z.strictObject({
  ...parcelsAsked,
  /** 'one': a page for each label, of the label's own size. */
  paper: z.enum(['A4', 'Letter', 'one']).default('A4'),
  /** Of one label. */
  width: z.coerce.number().min(40).max(300).default(99),
  height: z.coerce.number().min(20).max(300).default(67),
  columns: z.coerce.number().int().min(1).max(10).default(2),
  rows: z.coerce.number().int().min(1).max(30).default(4),
  /** From the edges of the sheet to the first label. */
  left: mm(4.5),
  top: mm(13),
  /** From the left edge of one label to that of the next, and from top to top; touching when left out. */
  across: z.coerce.number().min(20).max(500).optional(),
  down: z.coerce.number().min(10).max(500).optional(),
  /** First free label of the first sheet, from 1. */
  start: z.coerce.number().int().min(1).max(300).default(1),
});
type Asked = z.infer<typeof input>;

/** Between the label's edge and what is printed. */
const MARGIN = 4;

/** Which way of writing a character the people there are used to. */
const LANGUAGES: Readonly<Record<string, string>> = {
  JP: 'ja',
  KR: 'ko',
  CN: 'zh-Hans',
  SG: 'zh-Hans',
  TW: 'zh-Hant',
  HK: 'zh-Hant',
  MO: 'zh-Hant',
};

/** Letters of about this height read well; a long address makes them smaller. */
const LARGEST = 5;

function label({ orders, parcel }: PaperParcel, { sender }: PaperAsked, { width, height }: Asked): Mark[] {
  const inside = { width: width - 2 * MARGIN };
  const [first] = orders;
  const foot = [orders.map(({ order }) => order.number).join(', '), parcel.number]
    .filter(Boolean)
    .join(' · ');
  const top = sender.length > 0 ? 6 : 0;
  const lines = Math.max(first!.label.length, 4);
  const room = height - 2 * MARGIN - top - 4;
  return [
    ...(sender.length > 0
      ? [
          {
            mark: 'words' as const,
            text: `From: ${sender.join(', ')}`,
            x: MARGIN,
            y: MARGIN,
            size: 2.2,
            height: 5,
            fit: 'shrink' as const,
            ...inside,
          },
        ]
      : []),
    {
      mark: 'words',
      text: first!.label.join('\n'),
      x: MARGIN,
      y: MARGIN + top,
      size: Math.min(LARGEST, room / lines / 1.3),
      height: room,
      fit: 'shrink',
      align: 'start',
      vertical: 'middle',
      ...(LANGUAGES[parcel.country] ? { language: LANGUAGES[parcel.country] } : {}),
      ...inside,
    },
    {
      mark: 'words',
      text: foot,
      x: MARGIN,
      y: height - MARGIN - 2.5,
      size: 2.2,
      height: 3,
      fit: 'shrink',
      align: 'right',
      ...inside,
    },
  ];
}

function grid(asked: Asked): { sheet: { width: number; height: number }; places: [number, number][] } {
  const { paper: on, width, height, columns, rows, left, top } = asked;
  if (on === 'one') return { sheet: { width, height }, places: [[0, 0]] };
  const sheet = PAPERS[on];
  const across = asked.across ?? width;
  const down = asked.down ?? height;
  const right = left + across * (columns - 1) + width;
  const bottom = top + down * (rows - 1) + height;
  if (right > sheet.width + 0.01 || bottom > sheet.height + 0.01)
    throw new PaperRefused(
      `${columns} by ${rows} labels of ${width} by ${height} mm reach to ${Math.round(right * 10) / 10} by ${Math.round(bottom * 10) / 10} mm; ${on} is ${sheet.width} by ${sheet.height} mm.`,
      right > sheet.width ? 'columns' : 'rows',
    );
  if (across < width || down < height)
    throw new PaperRefused(
      'Labels would lie over each other: the distance is less than their size.',
      across < width ? 'across' : 'down',
    );
  const places = Array.from({ length: columns * rows }, (_, n): [number, number] => [
    left + (n % columns) * across,
    top + Math.floor(n / columns) * down,
  ]);
  return { sheet, places };
}

async function run(ask: Ask, asked: Asked): Promise<Paper> {
  const { sheet, places } = grid(asked);
  if (asked.start > places.length)
    throw new PaperRefused(`There are ${places.length} labels on a sheet.`, 'start');
  const found = await readParcels(ask, asked);
  const gone = found.parcels.find(({ orders }) => orders[0]!.address === null);
  if (gone)
    throw new PaperRefused(
      `There is no address for order ${gone.orders[0]!.order.number}: it was never given, or the buyer was forgotten.`,
      'parcels',
    );
  const sheets: Sheet[] = [];
  let at = asked.start - 1;
  for (const one of found.parcels) {
    const [x, y] = places[at % places.length]!;
    if (at % places.length === 0 || sheets.length === 0) sheets.push({ ...sheet, marks: [] });
    sheets.at(-1)!.marks.push({
      mark: 'group',
      x,
      y,
      clip: { x: 0, y: 0, width: asked.width, height: asked.height },
      marks: label(one, found, asked),
    });
    at++;
  }
  return { form: 'sheets', title: 'Address labels', file: 'address-labels', sheets };
}

export const labels = paper({ title: 'Address labels', input, run });
