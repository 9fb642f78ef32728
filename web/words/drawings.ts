import { listText } from './numbers.ts';

export const drawings = {
  pot: (zones: readonly string[]) =>
    zones.length === 0
      ? 'Outline of a pot, half in section; no zone filled'
      : `Outline of a pot, half in section; filled: ${listText(zones)}`,
  shelf: (shelf: number, marks: readonly string[]) =>
    marks.length === 0 ? `Shelf ${shelf}: empty` : `Shelf ${shelf}, from the side: ${listText(marks)}`,
  kiln: (shelves: number) => `The kiln from the side, ${shelves} ${shelves === 1 ? 'shelf' : 'shelves'}`,
} as const;
