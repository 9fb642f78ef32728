/**
 * The calendar feed (RFC 5545). ical.js writes it; here is what stands in it: a day as a day, a moment in
 * UTC, the same UID for ever, and SEQUENCE going up with every change.
 */
import ICAL from 'ical.js';
import type { DatedRow } from '../contract/telling.ts';

/**
 * RFC 5545, 3.1: no line is longer than 75 octets without its break. The library counts the space at the
 * start of a folded line as none.
 */
const FOLD = 74;

export interface FeedOptions {
  readonly studio: string;
  /** IANA zone of the studio's days. */
  readonly zone: string;
  /** Where the page is served, without a slash at the end: each entry leads there. */
  readonly address: string;
  /** When the feed is made. */
  readonly now: Date;
  readonly told: readonly { readonly plugin: string; readonly rows: readonly DatedRow[] }[];
}

type Component = InstanceType<typeof ICAL.Component>;

const isDay = (at: string): boolean => at.length === 10;
const dayAfter = (day: string): string =>
  new Date(Date.parse(`${day}T00:00:00Z`) + 86_400_000).toISOString().slice(0, 10);
const dayTime = (day: string) => ICAL.Time.fromDateString(day);
/** Whole seconds in UTC. */
const momentTime = (at: Date) => ICAL.Time.fromDateTimeString(`${at.toISOString().slice(0, 19)}Z`);

/** A moment carries the studio's offset, so its first ten characters are its day there. */
function addSpan(event: Component, from: string, until: string | null | undefined): void {
  if (isDay(from) || (until && isDay(until))) {
    event.addPropertyWithValue('dtstart', dayTime(from.slice(0, 10)));
    // RFC 5545, 3.6.1: the end is not part of it.
    event.addPropertyWithValue('dtend', dayTime(dayAfter((until ?? from).slice(0, 10))));
    return;
  }
  event.addPropertyWithValue('dtstart', momentTime(new Date(from)));
  if (until && Date.parse(until) > Date.parse(from))
    event.addPropertyWithValue('dtend', momentTime(new Date(until)));
}

function eventOf(plugin: string, row: DatedRow, { address, now }: FeedOptions): Component {
  const event = new ICAL.Component('vevent');
  event.addPropertyWithValue('uid', `${row.uid}.${plugin}@wareboard`);
  event.addPropertyWithValue('dtstamp', momentTime(now));
  event.addPropertyWithValue('sequence', row.changed);
  addSpan(event, row.from, row.until);
  event.addPropertyWithValue('summary', row.what);
  if (row.where) event.addPropertyWithValue('location', row.where);
  if (row.note) event.addPropertyWithValue('description', row.note);
  event.addPropertyWithValue('url', `${address}${row.to}`);
  // It is the kiln that is busy, not the potter.
  event.addPropertyWithValue('transp', 'TRANSPARENT');
  return event;
}

/** The whole feed, lines ended by CR LF. */
export function feedOf(options: FeedOptions): string {
  ICAL.foldLength = FOLD;
  const calendar = new ICAL.Component('vcalendar');
  calendar.addPropertyWithValue('version', '2.0');
  calendar.addPropertyWithValue('prodid', '-//Wareboard//Calendar//EN');
  calendar.addPropertyWithValue('method', 'PUBLISH');
  calendar.addPropertyWithValue('x-wr-calname', options.studio);
  calendar.addPropertyWithValue('x-wr-timezone', options.zone);
  for (const { plugin, rows } of options.told)
    for (const row of rows) calendar.addSubcomponent(eventOf(plugin, row, options));
  return `${calendar.toString()}\r\n`;
}
