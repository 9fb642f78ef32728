import { countText, momentText, pieces } from './numbers.ts';

/** Headings by what is done; a plugin's own come with their own words. */
export const headings: Readonly<Record<string, string>> = {
  fetch: 'Failing again and again',
  draw: 'Kilns to draw',
  cool: 'Kilns cooling',
  end: 'Kilns firing',
  light: 'Kilns to light',
  ask: 'Clients to ask',
  decide: 'Repairs to decide',
  mend: 'Waiting to be mended',
  grade: 'Fired and not graded yet',
  tell: 'To be told that it is ready',
  dry: 'Drying for more than three weeks',
  'ask-buyer': 'Late in the post',
  settle: 'Orders to settle',
  'pack-orders': 'Orders to pack',
  'post-parcels': 'Parcels to post',
  'make-for-orders': 'To print or make for orders',
  'make-more': 'Soon to print or make again',
};

export const today = {
  coolsSince: (at: string) => `Ended ${momentText(at)}.`,
  usually: (at: string) =>
    `In this kiln you have most often drawn such a firing by ${momentText(at)}. The kiln maker’s handbook says when it may be opened.`,
  due: (day: string) => `due ${day}`,
  more: (n: number) => `and ${countText(n)} more`,
  failed: (plugin: string) => `What ${plugin} has waiting could not be asked for.`,
  standing: 'Where the ware stands',
  count: 'Pieces',
  pieces,
  empty: 'Kilns to light and draw, repairs and ware to be graded will stand here when they wait for you.',
  emptyDo: 'Begin a piece or lot',
  nothing: 'Nothing waits for you.',
} as const;
