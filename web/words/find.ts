import { countText } from './numbers.ts';

export const find = {
  label: 'Find a piece',
  hint: 'Find ware',
  scan: 'Scan a label',
  results: 'Found',
  found: (n: number) => (n === 1 ? '1 found' : `${countText(n)} found`),
  likely: 'Is it one of these?',
  how: {
    swapped: 'two symbols the other way round',
    misread: 'one symbol misread',
    missing: 'one symbol left out',
    turned: 'read upside down',
  },
  none: 'No piece here has this mark.',
  everywhere: 'Look in all ware, also what has left',
  title: 'Find a piece',
  lead: 'Type the mark on its foot, or hold its label in front of the camera.',
  open: 'Open the camera',
  aim: 'Hold the label in the frame.',
  stop: 'Close the camera',
  photo: 'Take a photograph of the label',
  photoHint: 'Works without opening the camera here.',
  unread: 'No label could be read in this photograph. Go nearer, hold it level, and try again.',
  notOurs: (text: string) => `This code belongs to no piece here: ${text}`,
  noCamera: 'The camera cannot be opened on this page: the browser allows it only at a trusted address.',
  refused: 'The camera was not allowed. It can be allowed in the browser’s settings for this page.',
} as const;
