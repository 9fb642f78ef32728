import { shell } from './shell.ts';

export const keys = {
  title: shell.keys,
  lead: 'Everything on these pages can be reached with Tab and done with Enter. These keys are shorter ways.',
  on: 'Keys of a letter alone',
  onHint: 'Switched off, only the keys with Ctrl and those inside a form or a drawing stay.',
  switch: 'They work on this device',
  anywhere: 'Anywhere',
  kiln: 'While drawing a kiln',
  list: [
    ['?', 'This page'],
    ['/', 'To the box that finds a piece'],
    ['b', 'Begin a piece or lot'],
    ['g, then t', shell.today],
    ['g, then w', shell.ware],
    ['g, then k', shell.kilns],
    ['g, then p', 'Post'],
    ['g, then r', shell.review],
    ['g, then l', shell.log],
    ['Ctrl and z', 'Undo what was just done, as long as its screen stays'],
  ],
  kilnList: [
    ['Enter', 'Take the key that is marked: at first it is Good'],
    ['Arrows', 'To the key beside it'],
    ['Letters', 'To the fault, zone or repair that begins with them'],
    ['Escape', 'A step back'],
    ['Ctrl and z', 'Undo, back through every piece'],
  ],
} as const;
