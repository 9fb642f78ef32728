/** The templates that the yard sells. Fired sizes, for Fell White. */
import { DAYS, dayAfter } from './calendar.ts';
import type { Chance } from './chance.ts';
import { Daybook, type DemoDay } from './daybook.ts';

const FELL_WHITE = { shrinkage: 0.12 };
const LICENCE = 'For pots that you make yourself, to keep or to sell. Not for passing on.';

/** A row of four walls with gables and windows, folded at the corners, 70 mm square. */
const lantern = {
  form: 'drawing',
  ...FELL_WHITE,
  pieces: [
    {
      name: 'walls',
      outline: 'M0 60L35 15L70 60H140L175 15L210 60H280V150H0Z',
      holes: [
        'M22 80H48V110H22Z',
        'M162 80H188V110H162Z',
        'M92 85A13 13 0 0 1 118 85V112H92Z',
        'M232 85A13 13 0 0 1 258 85V112H232Z',
      ],
      lines: [70, 140, 210].map((x) => ({ pen: 'fold', path: `M${x} 60V150` })),
    },
    { name: 'roof', count: 2, outline: 'M0 0H80V64H0Z', lines: [{ pen: 'bevel', path: 'M0 4H80' }] },
    { name: 'floor', outline: 'M0 0H70V70H0Z', holes: ['M47 35A12 12 0 0 1 23 35A12 12 0 0 1 47 35Z'] },
  ],
};

const jug = {
  form: 'polygon',
  ...FELL_WHITE,
  sides: 7,
  bottomSide: 52,
  topSide: 38,
  height: 190,
  thickness: 5,
  seam: 'bevel',
  base: true,
  handle: { length: 190, width: 34, endWidth: 22 },
};

const pocket = {
  form: 'drawing',
  ...FELL_WHITE,
  pieces: [
    {
      name: 'back',
      outline: 'M0 20C0 0 20 0 60 0C100 0 120 0 120 20V130C120 175 90 200 60 200C30 200 0 175 0 130Z',
      holes: ['M64 14A4 4 0 0 1 56 14A4 4 0 0 1 64 14Z'],
      lines: [{ pen: 'mark', path: 'M0 70H120' }],
    },
    {
      name: 'front',
      outline: 'M0 0C40 14 110 14 150 0V62C150 115 115 142 75 142C35 142 0 115 0 62Z',
      lines: [{ pen: 'bevel', path: 'M6 6V62C6 110 38 136 75 136C112 136 144 110 144 62V6' }],
    },
  ],
};

const TEMPLATES = [
  {
    name: 'House Lantern',
    spec: lantern,
    howTo: 'Roll the slab 5 mm. Cut the windows while it is soft; fold the walls when they just bend.',
  },
  {
    name: 'Faceted Jug',
    spec: jug,
    howTo: 'Score the folds half through from the inside. Stand the wall on its base before the handle.',
  },
  {
    name: 'Wall Pocket',
    spec: pocket,
    howTo: 'Lay the front over crumpled paper so that it bellies, and join it along the bevel.',
  },
].map((template) => ({ ...template, clay: 'fell-white-stoneware', licence: LICENCE }));

/** They are drawn on the first day, in a daybook of their own: the ware's chance is not touched by them. */
export function templateDays(chance: Chance, today: string): DemoDay[] {
  const book = new Daybook(chance);
  book.open(dayAfter(today, -DAYS));
  for (const template of TEMPLATES) book.note('template.draw', template, { device: 'laptop' });
  book.close();
  return book.days;
}
