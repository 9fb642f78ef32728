/** Address labels: one on a page of its own size, or many on sheets of any grid, measured in mm. */
import { z } from 'zod';
import type { Mark, Paper, Sheet } from '../../../server/contract/paper.ts';
import { type Ask, PaperRefused, paper } from '../../../server/contract/plugin.ts';
import { FIRST_GRID, type LabelGrid, placesOf, sheetOf, wrongWith } from '../label-grid.ts';
import { labelGrid } from '../shop-facts.ts';
import { type PaperAsked, type PaperParcel, parcelsAsked, readParcels } from './asked.ts';

const ofText = (number: z.ZodNumber) => z.coerce.number().pipe(number).optional();
/** What is left out is as the user keeps it in the settings. */
const given = {
  /** 'one': a page for each label, of the label's own size. */
  paper: labelGrid.shape.paper.optional(),
  columns: ofText(labelGrid.shape.columns),
  rows: ofText(labelGrid.shape.rows),
  width: ofText(labelGrid.shape.width),
  height: ofText(labelGrid.shape.height),
  left: ofText(labelGrid.shape.left),
  top: ofText(labelGrid.shape.top),
  across: ofText(labelGrid.shape.across),
  down: ofText(labelGrid.shape.down),
};
const input = z.strictObject({
  ...parcelsAsked,
  ...given,
  /** First free label of the first sheet, from 1. */
  start: z.coerce.number().int().min(1).max(300).default(1),
});
type Asked = z.infer<typeof input>;

/** What is given with the paper, on top of the grid that the user keeps. */
function gridOf(
  { parcel: _, parcels: __, start: ___, ...given }: Asked,
  kept: LabelGrid | undefined,
): LabelGrid {
  const said = Object.fromEntries(Object.entries(given).filter(([, value]) => value !== undefined));
  const grid: LabelGrid = { ...(kept ?? FIRST_GRID), ...said };
  return {
    ...grid,
    across: given.across ?? (given.width === undefined ? grid.across : grid.width),
    down: given.down ?? (given.height === undefined ? grid.down : grid.height),
  };
}

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

function label(
  { orders, parcel }: PaperParcel,
  { sender }: PaperAsked,
  { width, height }: LabelGrid,
): Mark[] {
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

async function run(ask: Ask, asked: Asked): Promise<Paper> {
  const found = await readParcels(ask, asked);
  const grid = gridOf(asked, found.facts.labels);
  const wrong = wrongWith(grid);
  if (wrong) throw new PaperRefused(wrong.sentence, wrong.field);
  const sheet = sheetOf(grid);
  const places = placesOf(grid);
  if (asked.start > places.length)
    throw new PaperRefused(`There are ${places.length} labels on a sheet.`, 'start');
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
      clip: { x: 0, y: 0, width: grid.width, height: grid.height },
      marks: label(one, found, grid),
    });
    at++;
  }
  return { form: 'sheets', title: 'Address labels', file: 'address-labels', sheets };
}

export const labels = paper({ title: 'Address labels', input, run });
