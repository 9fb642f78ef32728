import { pieces } from './numbers.ts';

export const today = {
  draw: 'Kilns to draw',
  end: 'Kilns firing',
  light: 'Kilns to light',
  mend: 'Waiting to be mended',
  grade: 'Fired and not graded yet',
  standing: 'Where the ware stands',
  stage: 'Stage',
  count: 'Pieces',
  needsYou: 'Needs you',
  pieces,
  empty: 'Kilns to light and draw, repairs and ware to be graded will stand here when they wait for you.',
  emptyDo: 'Begin a piece or lot',
  nothing: 'Nothing waits for you.',
} as const;
