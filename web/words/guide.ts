import { pieces } from './numbers.ts';

export const guide = {
  title: 'Fault guide',
  lead: 'What each fault is, what this studio’s own record suspects, what the books suspect, and what to try.',
  found: (n: number) => (n === 0 ? 'not found yet' : `on ${pieces(n)}`),
  all: 'All faults',
  onPaper: (paper: string) => `The guide on ${paper}`,
  record: 'What this studio’s record suspects',
  goesWith: 'How often with it',
  onThis: 'on this piece',
  oneFiring: 'The firing that most came out of',
  books: 'What the books suspect',
  tries: 'What to try',
  practice: 'common practice',
  here: 'How repairs have gone here',
  workedOn: (says: string) => `worked on ${says}`,
  noRepairs: 'No repair for it has been judged by a grade here yet.',
  known: (fault: string) => `What is known of ${fault}`,
  more: (fault: string) => `The whole guide to ${fault}`,
  whatNow: 'What to do about it',
  backToPiece: 'the piece',
} as const;
