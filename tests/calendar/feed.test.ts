/**
 * The feed against RFC 5545: its bytes by the rules of section 3.1 and 3.3.11, and read back by ical.js.
 */
import fc from 'fast-check';
import ICAL from 'ical.js';
import { describe, expect, test } from 'vitest';
import { feedOf } from '../../server/calendar/feed.ts';
import type { DatedRow } from '../../server/contract/telling.ts';

const NOW = new Date('2026-11-25T09:00:00.123Z');
const firing: DatedRow = {
  uid: 'firing-g1',
  what: 'Glaze, late November',
  from: '2026-11-20T08:00:00+00:00',
  until: '2026-11-21T06:30:00+00:00',
  where: 'Big Round',
  note: 'Glaze 6 Plain, 10 pieces',
  changed: 7,
  to: '/kilns/g1',
};
const feed = (...rows: readonly DatedRow[]): string =>
  feedOf({
    studio: 'Hollin Yard Pottery',
    zone: 'Europe/London',
    address: 'https://yard.example',
    now: NOW,
    told: [{ plugin: 'studio', rows }],
  });

const events = (text: string) =>
  new ICAL.Component(ICAL.parse(text)).getAllSubcomponents('vevent').map((it) => new ICAL.Event(it));
const value = (text: string, name: string) => events(text)[0]!.component.getFirstPropertyValue(name);

/** What is wrong with the bytes, by section 3.1 of RFC 5545. */
function wrongBytes(text: string): string[] {
  const lines = text.split('\r\n');
  return [
    ...(text.endsWith('\r\n') ? [] : ['the last line has no end']),
    ...(text.replaceAll('\r\n', '').match(/[\r\n]/) ? ['a bare carriage return or line feed'] : []),
    ...lines
      .filter((line) => Buffer.byteLength(line) > 75)
      .map((line) => `${Buffer.byteLength(line)} octets: ${line}`),
    ...lines.filter((line) => line.includes('\uFFFD')).map((line) => `a character is cut in two: ${line}`),
  ];
}

describe('the calendar feed', () => {
  test('says in UTC when a kiln was fired, where, and where more stands', () => {
    expect(feed(firing).split('\r\n')).toEqual(
      expect.arrayContaining([
        'BEGIN:VCALENDAR',
        'VERSION:2.0',
        'UID:firing-g1.studio@wareboard',
        'DTSTAMP:20261125T090000Z',
        'SEQUENCE:7',
        'DTSTART:20261120T080000Z',
        'DTEND:20261121T063000Z',
        'SUMMARY:Glaze\\, late November',
        'LOCATION:Big Round',
        'URL:https://yard.example/kilns/g1',
        'END:VCALENDAR',
      ]),
    );
  });

  test('a day is a day in every zone, and its end is the day after (3.6.1)', () => {
    const text = feed({ ...firing, from: '2026-12-01', until: null });
    expect(text).toContain('DTSTART;VALUE=DATE:20261201\r\nDTEND;VALUE=DATE:20261202');
    const span = feed({ ...firing, from: '2026-12-30', until: '2027-01-01' });
    expect(span).toContain('DTSTART;VALUE=DATE:20261230\r\nDTEND;VALUE=DATE:20270102');
  });

  test('a firing of which one end is known to the minute and the other to the day is told in days', () => {
    const text = feed({ ...firing, until: '2026-11-21' });
    expect(text).toContain('DTSTART;VALUE=DATE:20261120\r\nDTEND;VALUE=DATE:20261122');
  });

  test('across the night when clocks go back, the moments are right', () => {
    const text = feed({ ...firing, from: '2026-10-24T22:00:00+01:00', until: '2026-10-25T08:00:00+00:00' });
    const [event] = events(text);
    expect(event!.duration.toSeconds()).toBe(11 * 3600);
  });

  test('has the same UID for ever, and a higher SEQUENCE when it has changed', () => {
    const before = feed(firing);
    const after = feed({ ...firing, until: '2026-11-21T07:00:00+00:00', changed: 9 });
    expect(events(before)[0]!.uid).toBe(events(after)[0]!.uid);
    expect([value(before, 'sequence'), value(after, 'sequence')]).toEqual([7, 9]);
  });

  test('whatever is written in it, no line is too long, no character is cut, and all of it is read back', () => {
    const text = fc
      .string({ unit: 'grapheme', minLength: 1, maxLength: 200 })
      .map((s) => s.replace(/[\p{Cc}]/gu, ' '));
    const sentence = fc.oneof(
      text,
      text.map((s) => `${s}\n${s}, ; : \\n \\ "${s}"`),
    );
    fc.assert(
      fc.property(sentence, sentence, (what, note) => {
        const made = feed({ ...firing, what, note });
        expect(wrongBytes(made)).toEqual([]);
        expect(value(made, 'summary')).toBe(what);
        expect(value(made, 'description')).toBe(note);
      }),
      { numRuns: 200 },
    );
  });

  test('without anything in it is a calendar all the same', () => {
    expect(wrongBytes(feed())).toEqual([]);
    expect(events(feed())).toEqual([]);
  });
});
