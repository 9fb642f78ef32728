import { listText } from './numbers.ts';

export const drawings = {
  pot: (zones: readonly string[], faults: readonly string[]) =>
    [
      'Outline of a pot, half in section',
      zones.length === 0 ? 'no zone filled' : `filled: ${listText(zones)}`,
      faults.length > 0 && `marked: ${listText(faults)}`,
    ]
      .filter(Boolean)
      .join('; '),
  faultOn: (fault: string, zone: string) => `${fault} on the ${zone}`,
  shelf: (shelf: number, marks: readonly string[]) =>
    marks.length === 0 ? `Shelf ${shelf}: empty` : `Shelf ${shelf}, from the side: ${listText(marks)}`,
  kiln: (shelves: number) => `The kiln from the side, ${shelves} ${shelves === 1 ? 'shelf' : 'shelves'}`,
} as const;
