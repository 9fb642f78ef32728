/** Adding and changing clays, glazes, schedules, kilns, the user's own words, people and settings. */
import { z } from 'zod';
import { type Command, command } from '../../contract/plugin.ts';
import { refuse } from '../../contract/streams.ts';
import type { StudioEventName } from '../../contract/studio/events.ts';
import { materialEvents } from '../../contract/studio/material-events.ts';
import { handle, handleOf, id, name, word } from '../../contract/studio/values.ts';
import { freeText, type TextRef } from '../../contract/text.ts';
import { FAULTS, REPAIRS, ZONES } from '../../contract/trade.ts';
import { records } from '../piece/part.ts';
import { SETTINGS_STREAM } from './known.ts';
import { type MaterialKind, personKind } from './materials.ts';

type MaterialData = { id?: string; name?: string; note?: TextRef };

/** Its handle as given, or made from its name. */
const idOf = (data: MaterialData): string => data.id ?? handleOf(data.name ?? '');

function material(
  kind: MaterialKind,
  event: keyof typeof materialEvents & StudioEventName,
  title: string,
): Command<MaterialData> {
  const shape = materialEvents[event].shape as unknown as z.ZodObject;
  return command<MaterialData>({
    title,
    input: shape.extend({
      id: handle.optional(),
      note: freeText().optional(),
    }) as unknown as z.ZodType<MaterialData>,
    texts: ['note'],
    streams: (data) => [`${kind}:${idOf(data)}`],
    decide: (data) => {
      const id = idOf(data);
      if (id === '') return refuse('bad-name', 'A name needs at least one letter or digit.', 'name');
      return [{ name: event, streams: [`${kind}:${id}`], data: { ...data, id } }];
    },
  });
}

export const addClay = material('clay', 'clay.added', 'Add a clay');
export const changeClay = material('clay', 'clay.changed', 'Change a clay');
export const openBatch = material('clay', 'clay.batch-opened', 'Open a batch of clay');
export const addGlaze = material('glaze', 'glaze.added', 'Add a glaze');
export const changeGlaze = material('glaze', 'glaze.changed', 'Change a glaze');
export const mixBatch = material('glaze', 'glaze.batch-mixed', 'Mix a batch of glaze');
export const writeSchedule = material('schedule', 'schedule.written', 'Write a firing schedule');
export const addKiln = material('kiln', 'kiln.added', 'Add a kiln');
export const changeKiln = material('kiln', 'kiln.changed', 'Change a kiln');

const TRADE: Readonly<Record<string, readonly string[]>> = { fault: FAULTS, repair: REPAIRS, zone: ZONES };

export const addWord = command({
  title: 'Add a fault, repair or zone of your own',
  input: z.strictObject({ kind: z.enum(['fault', 'repair', 'zone']), name, id: word.optional() }),
  streams: () => [SETTINGS_STREAM],
  decide: (input) => {
    const own = input.id ?? handleOf(input.name);
    if (own === '') return refuse('bad-name', 'A name needs at least one letter or digit.', 'name');
    if (TRADE[input.kind]!.includes(own))
      return refuse('already-there', `“${input.name}” is there already.`, 'name');
    return [records('word.added', [SETTINGS_STREAM], { ...input, id: own })];
  },
});

export const addPerson = command({
  title: 'Add a person',
  input: z.strictObject({ person: id, name: freeText(200) }),
  texts: ['name'],
  about: (input) => input.person,
  streams: (input) => [`person:${input.person}`],
  decide: (input, streams) =>
    streams.latest(personKind, input.person).forgotten
      ? refuse('forgotten', 'This person has been forgotten; add them anew.', 'person')
      : [records('person.added', [`person:${input.person}`], input)],
});

export const forgetPerson = command({
  title: 'Forget a person',
  input: z.strictObject({ person: id }),
  streams: (input) => [`person:${input.person}`],
  decide: (input, streams) => {
    const person = streams.latest(personKind, input.person);
    if (person.forgotten) return [];
    if (!person.name) return refuse('no-such-person', 'There is no such person.', 'person');
    return [records('person.forgotten', [`person:${input.person}`], input)];
  },
});

const zones = new Set(Intl.supportedValuesOf('timeZone'));

export const setStudio = command({
  title: 'Set the studio’s name, zone, currency and year',
  input: z.strictObject({
    studio: name,
    zone: z.string().refine((zone) => zone === 'UTC' || zones.has(zone), 'a time zone like Europe/London'),
    currency: z.string().regex(/^[A-Z]{3}$/, 'a currency code like GBP'),
    yearStart: z
      .string()
      .regex(/^\d\d-\d\d$/, 'a day like 01-01 or 04-06')
      .refine(
        (day) => z.iso.date().safeParse(`2024-${day}`).success,
        'a day of the calendar like 01-01 or 04-06',
      ),
  }),
  streams: () => [SETTINGS_STREAM],
  decide: (input) => [records('studio.set', [SETTINGS_STREAM], input)],
});
