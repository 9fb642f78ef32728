/** What is in the kiln from the top, to talk from while it is opened and to mark on. */
import type { Block, Drawing, Mark } from '../../contract/paper.ts';
import { paper } from '../../contract/plugin.ts';
import { firingAsked, toldFiring } from './firing-asked.ts';
import {
  glazesOf,
  historyOf,
  type LoadRow,
  markCell,
  ownerOf,
  type Shelf,
  shelvesOf,
  whatOf,
} from './said.ts';

export const openingSheet = paper({
  title: 'Opening sheet',
  input: firingAsked,
  unlisted: true,
  run: async (ask, input) => {
    const { title, rows, facts } = await toldFiring(ask, input.firing);
    return {
      form: 'document',
      title: `${title}: opening`,
      file: 'opening-sheet',
      paper: input.paper,
      landscape: true,
      blocks: [
        { block: 'heading', level: 1, text: `${title}: opening` },
        { block: 'facts', facts },
        {
          block: 'paragraph',
          size: 'small',
          text: 'Isolate the kiln first, and open it cold. Glaze drips, stilt points and slivers cut: wear gloves. The kiln maker’s handbook comes first.',
        },
        ...shelvesOf(rows).flatMap(shelfBlocks),
      ],
    };
  },
});

function shelfBlocks({ title, rows }: Shelf): Block[] {
  return [
    { block: 'heading', level: 2, text: title },
    {
      block: 'table',
      columns: [
        { label: 'Mark', width: 20 },
        { label: 'Piece', width: 42 },
        { label: 'Glazes', width: 60 },
        { label: 'Whose', width: 32 },
        { label: 'What happened before', share: 1 },
        { label: 'Came out', width: 36 },
      ],
      rows: rows.map((row) => [
        markCell(row.mark),
        pieceSaid(row),
        glazesOf(row),
        ownerOf(row),
        historyOf(row),
        { drawing: boxes(row.count) },
      ]),
    },
  ];
}

function pieceSaid({ count, form, clayName, position }: LoadRow): string {
  return [whatOf({ count, form }), clayName, position].filter((it) => it !== null && it !== '').join('\n');
}

const GRADES = ['1st', '2nd', 'waster'];

/** A box for each grade, to tick or, of a lot, to write a number in; and a line for faults. */
function boxes(count: number): Drawing {
  const step = 12;
  const wide = count > 1 ? 9 : 4.4;
  const marks = GRADES.flatMap((grade, at): Mark[] => [
    { mark: 'box', x: at * step, y: 0.6, width: wide, height: 5, pen: { width: 0.25 } },
    { mark: 'words', text: grade, x: at * step, y: 6.2, size: 2.5 },
  ]);
  return {
    width: 36,
    height: 15,
    title: 'first, second or waster',
    marks: [
      ...marks,
      {
        mark: 'line',
        points: [
          [0, 14.4],
          [35, 14.4],
        ],
        pen: { width: 0.2, dash: [0.8, 0.8] },
      },
    ],
  };
}
