/**
 * The content of a customs declaration, CN 22 or CN 23 of the Universal Postal Union: what it is, how many,
 * net weight, value and currency, HS number, origin. CN 22 will do up to a value in SDR that is set with its
 * day; the rate from the parcel's currency to SDR (XDR) is the user's own.
 */
import { z } from 'zod';
import { minorDigits } from '../../../server/contract/money.ts';
import type { Block, Paper } from '../../../server/contract/paper.ts';
import { type Ask, PaperRefused, paper } from '../../../server/contract/plugin.ts';
import { rateFor } from '../reports/money.ts';
import type { ShopFacts } from '../shop-facts.ts';
import { type PaperAsked, type PaperParcel, parcelsAsked, readParcels } from './asked.ts';
import { customsLabel } from './customs-label.ts';
import { declaredOf, worthOf } from './declared.ts';

const input = z.strictObject({
  ...parcelsAsked,
  /** By the parcel's value when left out. */
  form: z.enum(['CN22', 'CN23']).optional(),
  /** 'label': of the form's own size, to be stuck on. */
  paper: z.enum(['A4', 'Letter', 'label']).default('A4'),
});

/** Up to this weight CN 22 will do, g. */
const CN22_WEIGHT = 2_000;

/** In SDR; the currency for which there is no rate, where one is missing. */
export function inSdr(
  worth: ReadonlyMap<string, number>,
  rates: ShopFacts['rates'],
): number | { missing: string } {
  let sdr = 0;
  for (const [currency, amount] of worth) {
    const rate = rateFor(rates, currency, 'XDR');
    if (!rate) return { missing: currency };
    sdr += (amount / 10 ** (minorDigits(currency) ?? 2)) * rate.rate;
  }
  return sdr;
}

export function formFor(
  { parcel, lines }: Pick<PaperParcel, 'parcel' | 'lines'>,
  { customs, rates }: ShopFacts,
): 'CN22' | 'CN23' {
  if ((parcel.weight ?? 0) > CN22_WEIGHT) return 'CN23';
  const sdr = inSdr(worthOf(lines), rates);
  if (typeof sdr !== 'number')
    throw new PaperRefused(
      `Whether form CN 22 will do depends on the value in SDR: give a rate from ${sdr.missing} to XDR in the shop’s settings, or say which form.`,
      'form',
    );
  return sdr > customs.sdr ? 'CN23' : 'CN22';
}

/** What is missing for a form that customs will take. */
function lacking({ lines }: PaperParcel): string[] {
  return [
    ...new Set(
      lines.flatMap(({ name, item, price }) => [
        ...(item?.facts.weight === undefined ? [`the weight of ${name}`] : []),
        ...(item?.facts.hs === undefined ? [`the HS number of ${name}`] : []),
        ...(item?.facts.origin === undefined ? [`the origin of ${name}`] : []),
        ...(price === undefined ? [`the price of ${name}`] : []),
      ]),
    ),
  ];
}

function declaration(one: PaperParcel, form: 'CN22' | 'CN23', asked: PaperAsked): Block[] {
  const { parcel } = one;
  const missing = lacking(one);
  const said = declaredOf(one, asked);
  return [
    { block: 'heading', text: `Customs declaration ${form === 'CN22' ? 'CN 22' : 'CN 23'}` },
    { block: 'paragraph', size: 'small', text: 'May be opened officially' },
    {
      block: 'facts',
      facts: [
        ['Kind of item', 'Sale of goods'],
        ...(parcel.number ? ([['Item number', parcel.number]] as [string, string][]) : []),
        ['Order', said.order],
        ...(form === 'CN23' || said.from.length > 0
          ? ([['From', said.from.join(', ')]] as [string, string][])
          : []),
        ['To', form === 'CN23' ? said.to.join(', ') : said.country],
      ],
    },
    {
      block: 'table',
      size: 'small',
      columns: [
        { label: 'Quantity and description' },
        { label: 'Net weight, kg', align: 'end', width: 26 },
        { label: 'Value', align: 'end', width: 30 },
        { label: 'HS number', width: 26 },
        { label: 'Origin', width: 18 },
      ],
      rows: said.lines.map(({ what, weight, value, hs, origin }) => [what, weight, value, hs, origin]),
    },
    {
      block: 'facts',
      facts: [
        ['Total value', said.total],
        ['Gross weight, kg', said.gross],
        ...(form === 'CN23' && parcel.format ? ([['Format', parcel.format]] as [string, string][]) : []),
      ],
    },
    ...(missing.length > 0
      ? [
          {
            block: 'paragraph' as const,
            size: 'small' as const,
            text: `To be filled in by hand: ${missing.join('; ')}.`,
          },
        ]
      : []),
    {
      block: 'paragraph',
      size: 'small',
      text: 'What is said above is true, and nothing in this parcel is dangerous or forbidden in the post.',
    },
    { block: 'space', height: 10 },
    { block: 'facts', facts: [['Day and signature', '']] },
  ];
}

async function run(ask: Ask, asked: z.infer<typeof input>): Promise<Paper> {
  const found = await readParcels(ask, asked);
  const abroad = found.parcels.filter(({ parcel }) => parcel.country !== found.facts.origin);
  if (abroad.length === 0)
    throw new PaperRefused('These parcels stay in the country; they need no customs declaration.', 'parcels');
  const about = { title: 'Customs declarations', file: 'customs' };
  const formOf = (one: PaperParcel) => asked.form ?? formFor(one, found.facts);
  if (asked.paper === 'label')
    return {
      form: 'sheets',
      ...about,
      sheets: abroad.map((one) => customsLabel(formOf(one), declaredOf(one, found))),
    };
  const blocks = abroad.flatMap((one, n): Block[] => [
    ...(n > 0 ? [{ block: 'page-break' as const }] : []),
    ...declaration(one, formOf(one), found),
  ]);
  return { form: 'document', ...about, paper: asked.paper, blocks };
}

export const customs = paper({ title: 'Customs declarations', input, run });
