/** Reads what the outside asks for: is there such a command, does its input fit, can it have happened then. */
import type { Command } from '../contract/plugin.ts';
import { type Refusal, refuse } from '../contract/streams.ts';
import { happenedAt } from '../contract/studio/values.ts';
import type { Referred, TextToKeep } from '../people/people.ts';
import { dayAfter, dayAt, dayInWords, momentAt } from './days.ts';
import type { Order } from './host.ts';
import { badInput } from './input-sentence.ts';
import type { Registry } from './registry.ts';
import { textsOf } from './texts.ts';

/** An order whose input fits. */
export interface ReadOrder {
  readonly order: Order;
  readonly command: Command;
  /** Parsed; free texts still in it. */
  readonly input: unknown;
  readonly happenedAt: string;
  readonly texts: readonly TextToKeep[];
}

/** An order that can be decided. */
export interface ReadyOrder {
  readonly order: Order;
  /** Parsed, with references in the place of free texts. */
  readonly input: unknown;
  readonly happenedAt: string;
  readonly fingerprint: string;
  readonly texts: readonly Referred[];
}

/** The studio's clock at the time of reading. */
export interface Now {
  readonly instant: number;
  readonly zone: string;
  /** The day of that instant. */
  readonly today: string;
  /** The day after: further ahead nothing can have happened. */
  readonly tomorrow: string;
}

export function nowIn(zone: string, instant: number): Now {
  const today = dayAt(instant, zone);
  return { instant, zone, today, tomorrow: dayAfter(today) };
}

export function readOrder(order: Order, registry: Registry, now: Now): ReadOrder | Refusal {
  const known = registry.command(order.command);
  if (!known)
    return refuse('no-such-command', `There is no command “${order.command}” in this studio.`, 'command');
  if (!/^[0-9A-Za-z-]{1,64}$/.test(order.id))
    return refuse('bad-input', 'The command needs an id: a UUID.', 'id');
  const when =
    order.happenedAt === undefined
      ? momentAt(notedAt(order, now.instant), now.zone)
      : readWhen(order.happenedAt, now);
  if (typeof when !== 'string') return when;
  const parsed = known.it.input.safeParse(order.input, { reportInput: true });
  if (!parsed.success) return badInput(parsed.error);
  const texts = textsOf(known.it, parsed.data, order.id);
  return { order, command: known.it, input: parsed.data, happenedAt: when, texts };
}

/** Milliseconds. A clock that is less wrong than this is taken at its word: the way here takes time too. */
const CLOCK_MAY_BE_OUT = 120_000;

/** The instant at which it was noted, never later than now: by the device's clock, set right where that is plainly wrong. */
function notedAt({ clock, sent }: Order, now: number): number {
  const noted = clock === undefined ? Number.NaN : Date.parse(clock);
  if (Number.isNaN(noted)) return now;
  const out = sent === undefined ? 0 : now - Date.parse(sent);
  return Math.min(now, Math.abs(out) > CLOCK_MAY_BE_OUT ? noted + out : noted);
}

/** Before it nobody's notebook reaches; a year with a digit missing does. */
const EARLIEST = '1900-01-01';

/** The day as it is, a moment with the studio's own offset. */
function readWhen(given: string, { instant, zone, today, tomorrow }: Now): string | Refusal {
  const bad = (code: string, sentence: string) => refuse(code, sentence, 'happenedAt');
  if (!happenedAt.safeParse(given).success)
    return bad(
      'bad-input',
      `“${given.slice(0, 40)}” is not a day of the calendar, nor a moment; write it like 2026-05-01 or 2026-05-01T10:15:00+01:00.`,
    );
  const moment = given.length > 10 ? Date.parse(given) : undefined;
  const when = moment === undefined ? given : momentAt(moment, zone);
  const ahead = moment === undefined ? given > tomorrow : moment > instant + 86_400_000;
  if (ahead)
    return bad(
      'in-the-future',
      `${dayInWords(when)} is still to come; give the day it happened, today (${dayInWords(today)}) at the latest.`,
    );
  if (when < EARLIEST)
    return bad('bad-input', `${dayInWords(when)} is too long ago; look at the year again.`);
  return when;
}
