/** The year as a printed page or two. */

import type { z } from 'zod';
import { moneyInWords } from '../../../server/contract/amounts.ts';
import type { Block, Paper } from '../../../server/contract/paper.ts';
import type { Answered, Ask } from '../../../server/contract/plugin.ts';
import { paper } from '../../../server/contract/plugin.ts';
import { capital, percent } from '../../../server/contract/reports/words.ts';
import { yearPaperInput } from './input.ts';
import { interval } from './interval-drawing.ts';
import { year } from './year.ts';

type Row = Answered['rows'][number];

/** How many of a ranking are printed; the table file has them all. */
const SHOWN = 5;
const CHANGES = 6;

const rate = (value: unknown): string => (typeof value === 'number' ? `${percent(value)} %` : '–');
const whole = (value: unknown): string => Number(value ?? 0).toLocaleString('en-GB');
const text = (value: unknown): string => String(value ?? '');

const heading = (words: string): Block => ({ block: 'heading', level: 2, text: words });
const paragraph = (words: string): Block => ({ block: 'paragraph', text: words });

function cameOut(grades: readonly Row[], lost: readonly Row[], mended: readonly Row[]): Block[] {
  const beside = (now: string, before: string) => `${now}; the year before ${before}`;
  return [
    heading('What came out'),
    {
      block: 'table',
      columns: [
        { label: 'Grade' },
        { label: 'This year', align: 'end' },
        { label: 'Share', align: 'end' },
        { label: 'Year before', align: 'end' },
        { label: 'Share then', align: 'end' },
      ],
      rows: grades.map((row) => [
        text(row.label),
        whole(row.pieces),
        rate(row.share),
        whole(row.piecesBefore),
        rate(row.shareBefore),
      ]),
    },
    {
      block: 'facts',
      facts: [
        ...lost.map((row): [string, string] => [
          `Lost, in ${row.currency}`,
          beside(
            moneyInWords({ amount: Number(row.lost), currency: text(row.currency) }),
            moneyInWords({ amount: Number(row.lostBefore), currency: text(row.currency) }),
          ),
        ]),
        ...mended.map((row): [string, string] => [
          text(row.label),
          beside(whole(row.pieces), whole(row.piecesBefore)),
        ]),
      ],
    },
  ];
}

interface Ranked {
  readonly rows: readonly Row[];
  readonly label: string;
  readonly estimate: string;
  readonly low: string;
  readonly high: string;
  readonly pieces: string;
  readonly said: (value: unknown) => string;
}

/** A dot and a bar for each row, with its numbers beside it. */
function ranking({ rows, label, estimate, low, high, pieces, said }: Ranked): Block[] {
  const shown = rows.slice(0, SHOWN);
  if (shown.length === 0) return [];
  const most = Math.max(...shown.map((row) => Number(row[high])), 1e-9);
  return [
    {
      block: 'table',
      size: 'small',
      columns: [
        { label: '', share: 2 },
        { label: `0 to ${said(most)}`, width: 62 },
        { label, align: 'end', width: 25 },
        { label: 'Between', align: 'end', width: 26 },
        { label: 'Pieces', align: 'end', width: 14 },
      ],
      rows: shown.map((row) => [
        { text: text(row.label), weight: 'bold' },
        {
          drawing: interval({
            low: Number(row[low]) / most,
            estimate: Number(row[estimate]) / most,
            high: Number(row[high]) / most,
            pieces: Number(row[pieces]),
          }),
        },
        said(row[estimate]),
        `${said(row[low])} – ${said(row[high])}`,
        whole(row[pieces]),
      ]),
    },
  ];
}

function changed(rows: readonly Row[]): Block[] {
  const different = rows.filter((row) => row.beyondChance);
  const others = rows.filter((row) => !row.beyondChance && row.what !== 'all').slice(0, CHANGES);
  return [
    heading('What changed since the year before'),
    ...(different.length > 0
      ? different.map((row) => paragraph(`${capital(text(row.label))}: ${text(row.says)}.`))
      : [
          paragraph(
            rows.length > 0
              ? 'Of all ware, the glazes, clays, schedules and faults, none changed beyond chance.'
              : 'The two years have nothing in common that could be compared.',
          ),
        ]),
    ...(others.length > 0
      ? [
          {
            block: 'table',
            size: 'small',
            columns: [
              { label: 'Largest differences that may be chance', share: 2 },
              { label: 'Kind' },
              { label: 'Year before', align: 'end' },
              { label: 'This year', align: 'end' },
            ],
            rows: others.map((row) => [
              capital(text(row.label)),
              text(row.what),
              rate(row.rateBefore),
              rate(row.rate),
            ]),
          } satisfies Block,
        ]
      : []),
  ];
}

interface More {
  readonly year: { readonly name: string; readonly from: string; readonly to: string };
  readonly headline: string;
  readonly compared: string;
  readonly advice: readonly string[];
  readonly worst: string;
  readonly best: string;
  readonly mended: string;
  readonly pieces: number;
}

function blocks({ rows, notes, ...answer }: Answered): Block[] {
  const more = answer.more as unknown as More;
  const of = (kind: string) => rows.filter((row) => row.kind === kind);
  const laid = (value: unknown) => Number(value).toFixed(0);
  const title = more.year.name || `${more.year.from} – ${more.year.to}`;
  const start: Block[] = [
    { block: 'heading', level: 1, text: `The year on a page: ${title}` },
    { block: 'paragraph', size: 'large', weight: 'bold', text: more.headline },
  ];
  if (more.pieces === 0) return start;
  return [
    ...start,
    paragraph(more.compared),
    heading('What to change'),
    ...more.advice.map(paragraph),
    ...cameOut(of('grade'), of('lost'), of('mended')),
    heading('Worst glazes'),
    paragraph(more.worst),
    ...ranking({
      rows: of('worst'),
      label: 'Laid at its door',
      estimate: 'laid',
      low: 'laidLow',
      high: 'laidHigh',
      pieces: 'pieces',
      said: laid,
    }),
    { block: 'page-break' },
    heading('Best glazes'),
    paragraph(more.best),
    ...ranking({
      rows: of('best'),
      label: 'Evened out',
      estimate: 'even',
      low: 'evenLow',
      high: 'evenHigh',
      pieces: 'pieces',
      said: rate,
    }),
    heading('Best repairs'),
    paragraph(more.mended),
    ...ranking({
      rows: of('repair'),
      label: 'Evened out',
      estimate: 'even',
      low: 'evenLow',
      high: 'evenHigh',
      pieces: 'tried',
      said: rate,
    }),
    ...changed(of('change')),
    heading('To keep in mind'),
    ...notes.map((note): Block => ({ block: 'paragraph', size: 'small', text: note })),
  ];
}

async function run(ask: Ask, { paper: size, ...of }: z.infer<typeof yearPaperInput>): Promise<Paper> {
  const answer = await year.run(ask, of);
  const { name, from } = (answer.more as unknown as More).year;
  return {
    form: 'document',
    title: `The year on a page: ${name || from}`,
    file: `the-year-${(name || from).replace('/', '-')}`,
    paper: size,
    blocks: blocks(answer),
  };
}

export const yearPaper = paper({ title: 'The year on a page', input: yearPaperInput, run });
