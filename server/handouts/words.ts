/** What a buyer reads who opens a link: all of its words, to be translated in one place. */
import { longDayText } from '../contract/reports/words.ts';

const count = (n: number): string => n.toLocaleString('en-GB');
const times = (n: number): string => (n === 1 ? 'once' : n === 2 ? 'twice' : `${count(n)} times`);

export const words = {
  language: 'en-GB',
  order: (number: string) => `Order ${number}`,
  left: (n: number, until: string) => `It can be fetched ${times(n)} more, until ${longDayText(until)}.`,
  paper: 'Paper that you print on',
  fetch: 'Fetch the PDF',
  counts: 'Looking at this page does not count; each press of the button does.',
  trueSize:
    'Print it at 100 %, without fitting it to the page, and check the printed ruler with one of your own where there is one.',
  shut: 'This link cannot be used',
  forged:
    'This address is not one that was made here. A letter may be missing or have been changed: copy the whole of it from the message once more.',
  gone: 'What this link led to is no longer offered. Write to whoever sent it to you.',
  over: (until: string) =>
    `This link could be used until ${longDayText(until)}. Write to whoever sent it to you for a new one.`,
  usedUp: (most: number) =>
    `This link was used ${times(most)}, which is as often as it could be. Write to whoever sent it to you for a new one.`,
  lost: 'The file is not here at present. Nothing was counted; write to whoever sent you the link.',
  notMade: 'The file could not be made just now. Nothing was counted; try again later.',
  notCounted: 'Nothing was counted.',
  stamp: (order: string | undefined, licence: string | undefined, studio: string) =>
    [studio, order === undefined ? '' : `order ${order}`, licence ?? ''].filter(Boolean).join(' · '),
} as const;
