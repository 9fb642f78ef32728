/** What goes where in the kiln, and lines to write the firing down by hand. */
import type { Block } from '../../contract/paper.ts';
import { paper } from '../../contract/plugin.ts';
import { opened, plural } from '../../contract/reports/words.ts';
import { firingAsked, toldFiring } from './firing-asked.ts';
import { glazesOf, markCell, ownerOf, type Shelf, shelvesOf, whatOf } from './said.ts';

/** Lines for readings by hand. */
const READINGS = 14;

export const loadSheet = paper({
  title: 'Kiln load sheet',
  input: firingAsked,
  unlisted: true,
  run: async (ask, input) => {
    const { title, rows, facts, pieces } = await toldFiring(ask, input.firing);
    const shelves = shelvesOf(rows);
    return {
      form: 'document',
      title: `${title}: load`,
      file: 'load-sheet',
      paper: input.paper,
      blocks: [
        { block: 'heading', level: 1, text: `${title}: load` },
        { block: 'facts', facts: [...facts, ['Pieces', String(pieces)]] },
        ...shelves.flatMap(shelfBlocks),
        ...byHand(shelves.filter(({ rows: own }) => own[0]?.shelf !== null).length),
      ],
    };
  },
});

function shelfBlocks({ title, rows }: Shelf): Block[] {
  return [
    { block: 'heading', level: 2, text: title },
    {
      block: 'table',
      size: 'small',
      columns: [
        { label: 'Place', width: 14 },
        { label: 'Mark', width: 17 },
        { label: 'What', width: 28 },
        { label: 'Clay', width: 20 },
        { label: 'Glazes', share: 1 },
        { label: 'Stands on', width: 17 },
        { label: 'Whose', width: 24 },
      ],
      rows: rows.map((row) => [
        row.position ?? '',
        markCell(row.mark),
        whatOf(row),
        row.clayName ?? '',
        glazesOf(row),
        row.furniture.map(opened).join(', '),
        ownerOf(row),
      ]),
    },
  ];
}

function byHand(shelves: number): Block[] {
  const line = (width: number) => '_'.repeat(width);
  return [
    { block: 'heading', level: 2, text: 'The firing, by hand' },
    {
      block: 'paragraph',
      size: 'small',
      text: 'Only dry ware goes in: damp ware bursts. The kiln maker’s handbook comes first.',
    },
    {
      block: 'table',
      size: 'small',
      columns: [
        { label: 'Time', width: 24 },
        { label: '°C', width: 24 },
        { label: 'Setting', width: 34 },
        { label: 'What was seen', share: 1 },
      ],
      rows: Array.from({ length: READINGS }, () => [' ', '', '', '']),
    },
    {
      block: 'paragraph',
      text: `Witness cones: ${Array.from({ length: Math.max(1, shelves) }, (_, at) => `shelf ${at + 1} ${line(8)}`).join('   ')}`,
    },
    {
      block: 'paragraph',
      text: `${plural(shelves, 'shelf', 'shelves')} packed. Lit by ${line(16)}   Ended at ${line(12)}`,
    },
  ];
}
