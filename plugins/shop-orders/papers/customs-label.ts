/**
 * A customs declaration as a label of its own size, to be stuck on the parcel: CN 22 of 74 by 105 mm, CN 23 of
 * 210 by 148 mm. The sizes are from memory of the Universal Postal Union's forms; carriers print others.
 */
import type { Mark, Sheet } from '../../../server/contract/paper.ts';
import { PaperRefused } from '../../../server/contract/plugin.ts';
import type { Declared } from './declared.ts';

interface Shape {
  readonly width: number;
  readonly height: number;
  /** Height of ordinary letters, mm. */
  readonly size: number;
  /** Kinds of thing that have room. */
  readonly most: number;
  /** Widths of the columns behind the first: weight, value, HS number, origin. */
  readonly columns: readonly [number, number, number, number];
}

const SHAPES: Readonly<Record<'CN22' | 'CN23', Shape>> = {
  CN22: { width: 74, height: 105, size: 2.1, most: 6, columns: [9, 14, 12, 9] },
  CN23: { width: 210, height: 148, size: 3, most: 12, columns: [24, 32, 30, 22] },
};
const MARGIN = 3;
const RULE = { width: 0.2 };
const KINDS = ['Sale of goods', 'Gift', 'Documents', 'Sample', 'Other'];

type Place = { readonly x: number; readonly y: number; readonly width: number; readonly height: number };

const words = (text: string, place: Place, size: number, more: object = {}): Mark => ({
  mark: 'words',
  text,
  ...place,
  size,
  fit: 'shrink',
  align: 'start',
  ...more,
});

const line = (...points: [number, number][]): Mark => ({ mark: 'line', points, pen: RULE });

/** The box before what it is has a cross in it, the others are open. */
function kinds({ width, size }: Shape, y: number): Mark[] {
  const letters = KINDS.reduce((sum, kind) => sum + kind.length + 3, 0);
  const side = size * 0.9;
  let x = MARGIN;
  return KINDS.flatMap((kind, n): Mark[] => {
    const each = ((width - 2 * MARGIN) * (kind.length + 3)) / letters;
    const at = x;
    x += each;
    const cross: Mark[] =
      n === 0 ? [line([at, y], [at + side, y + side]), line([at + side, y], [at, y + side])] : [];
    return [
      { mark: 'box', x: at, y, width: side, height: side, pen: RULE },
      ...cross,
      words(
        kind,
        { x: at + side + 0.6, y: y - 0.3, width: each - side - 1, height: size * 1.3 },
        size * 0.85,
      ),
    ];
  });
}

function table(shape: Shape, { lines, total, gross }: Declared, y: number, height: number): Mark[] {
  const { width, size, columns } = shape;
  const right = width - MARGIN;
  const widths = [right - MARGIN - columns.reduce((sum, it) => sum + it, 0), ...columns];
  const xs = [MARGIN];
  for (const it of widths) xs.push(xs.at(-1)! + it);
  const rows = [
    ['Quantity and description', 'Net kg', 'Value', 'HS number', 'Origin'],
    ...lines.map(({ what, weight, value, hs, origin }) => [what, weight, value, hs, origin]),
    ['Total, with packaging', gross, total, '', ''],
  ];
  const each = Math.min(height / rows.length, size * 3.2);
  const bottom = y + each * rows.length;
  const cells = rows.flatMap((row, n) =>
    row.map((text, column) =>
      words(
        text,
        { x: xs[column]! + 0.6, y: y + n * each + 0.4, width: widths[column]! - 1.2, height: each - 0.8 },
        n === 0 ? size * 0.85 : size,
        {
          vertical: 'middle',
          ...(column === 1 || column === 2 ? { align: 'right' } : {}),
          ...(n === 0 || n === rows.length - 1 ? { weight: 'bold' } : {}),
        },
      ),
    ),
  );
  return [
    ...Array.from({ length: rows.length + 1 }, (_, n) => line([MARGIN, y + n * each], [right, y + n * each])),
    ...xs.map((x) => line([x, y], [x, bottom])),
    ...cells.filter((it) => it.mark === 'words' && it.text !== ''),
  ];
}

/** @throws PaperRefused where more kinds of thing are in it than have room */
export function customsLabel(form: 'CN22' | 'CN23', said: Declared): Sheet {
  const shape = SHAPES[form];
  const { width, height, size, most } = shape;
  if (said.lines.length > most)
    throw new PaperRefused(
      `${most} kinds of thing have room on a ${form === 'CN22' ? 'CN 22' : 'CN 23'} label, and ${said.lines.length} are in the parcel of order ${said.order}: print it as a page${form === 'CN22' ? ', or as form CN 23' : ''}.`,
      'paper',
    );
  const inside = width - 2 * MARGIN;
  const head = size * 1.5;
  const who = form === 'CN23' ? size * 7.5 : size * 2.8;
  const top = MARGIN + head * 1.4 + size * 4.6;
  const foot = height - MARGIN - size * 6.2;
  const half = inside / 2 - 1;
  const people: Mark[] =
    form === 'CN23'
      ? [
          words(`From\n${said.from.join('\n')}`, { x: MARGIN, y: top, width: half, height: who }, size),
          words(
            `To\n${said.to.join('\n')}`,
            { x: MARGIN + half + 2, y: top, width: half, height: who },
            size,
          ),
        ]
      : [
          words(
            `From ${said.from.join(', ')}`,
            { x: MARGIN, y: top, width: inside, height: size * 1.3 },
            size,
          ),
          words(
            `To ${said.country}`,
            { x: MARGIN, y: top + size * 1.4, width: inside, height: size * 1.3 },
            size,
          ),
        ];
  return {
    width,
    height,
    marks: [
      words('Customs declaration', { x: MARGIN, y: MARGIN, width: inside * 0.75, height: head * 1.3 }, head, {
        weight: 'bold',
      }),
      words(
        form === 'CN22' ? 'CN 22' : 'CN 23',
        { x: MARGIN + inside * 0.75, y: MARGIN, width: inside * 0.25, height: head * 1.3 },
        head,
        { weight: 'bold', align: 'right' },
      ),
      words(
        ['May be opened officially', said.number, `order ${said.order}`].filter(Boolean).join(' · '),
        { x: MARGIN, y: MARGIN + head * 1.4, width: inside, height: size * 1.4 },
        size,
      ),
      ...kinds(shape, MARGIN + head * 1.4 + size * 2.2),
      ...people,
      ...table(shape, said, top + who, foot - top - who - 1),
      words(
        'What is said above is true, and nothing in this parcel is dangerous or forbidden in the post.',
        { x: MARGIN, y: foot, width: inside, height: size * 2.8 },
        size * 0.9,
        { least: 1.2 },
      ),
      line([MARGIN, height - MARGIN - size * 1.5], [width - MARGIN, height - MARGIN - size * 1.5]),
      words(
        'Day and signature',
        { x: MARGIN, y: height - MARGIN - size * 1.3, width: inside, height: size * 1.4 },
        size * 0.85,
      ),
    ],
  };
}
