import { countText, momentText } from './numbers.ts';

export const byItself = {
  title: 'Done by itself',
  about: 'Orders fetched from your shop, and what else is done on a timer.',
  lead: 'While Wareboard is open on the laptop, this is done without anybody asking.',
  none: 'Nothing is done by itself.',
  at: (moment: string) => momentText(moment),
  never: 'Not done yet.',
  failedSo: (n: number, since: string) =>
    `It has failed ${countText(n)} times, one after the other, since ${momentText(since)}.`,
  notSet: 'Not set up: give it an address first.',
  off: 'Not done by itself any more.',
  how: 'How often',
  every: (minutes: number): string =>
    minutes < 60
      ? `every ${countText(minutes)} minutes`
      : minutes === 60
        ? 'every hour'
        : minutes === 1440
          ? 'once a day'
          : `every ${countText(minutes / 60)} hours`,
  on: 'Do it by itself',
  now: 'Do it now',
  doing: 'Being done…',
  submit: 'Keep this',
  saved: 'Kept.',
  given: (label: string) => `${label}: given`,
  is: (label: string, shown: string) => `${label}: ${shown}`,
  change: 'Address, key and how often',
  set: 'Set it up',
  leave: 'Left empty, the one that is there stays.',
  forget: (label: string) => `Take away: ${label}`,
  forgotten: (label: string) => `Taken away: ${label}`,
} as const;
