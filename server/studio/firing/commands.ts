/** Packing, lighting, ending and drawing a kiln. */
import { z } from 'zod';
import { type Command, command } from '../../contract/plugin.ts';
import { type Decision, type Recorded, refuse, type Streams } from '../../contract/streams.ts';
import type { Firing } from '../../contract/studio/state.ts';
import { cone, count, furniture, handle, id, name, pieceId, role } from '../../contract/studio/values.ts';
import { freeText } from '../../contract/text.ts';
import { unknownMaterial } from '../materials/known.ts';
import { pieceStream } from '../piece/lot.ts';
import { isRefused, records, take } from '../piece/part.ts';
import { stepBeside } from './beside.ts';
import { firingKind, firingStream } from './firing.ts';

const unique = (names: readonly string[]): string[] => [...new Set(names)];

/** The firing's stream and those of all pieces in it. */
const loadOf = (firing: string, streams: Streams): string[] =>
  unique([
    firingStream(firing),
    ...streams.latest(firingKind, firing).places.map((p) => pieceStream(p.piece)),
  ]);

export const pack = command({
  title: 'Pack a kiln',
  input: z.strictObject({
    firing: id,
    label: name.optional(),
    kiln: handle,
    schedule: handle.optional(),
    role,
    places: z
      .array(
        z.strictObject({
          piece: pieceId,
          /** Some of the lot only: they are split off. */
          count: count.optional(),
          /** 1 is the top shelf. */
          shelf: z.number().int().min(1).max(40).optional(),
          position: name.optional(),
          furniture: z.array(furniture).optional(),
        }),
      )
      .min(1)
      .max(5_000),
    stagesNotNoted: z.boolean().optional(),
    afterwards: z.enum(['ended', 'drawn']).optional(),
  }),
  streams: (input) =>
    unique([
      firingStream(input.firing),
      `kiln:${input.kiln}`,
      ...(input.schedule ? [`schedule:${input.schedule}`] : []),
      ...input.places.map((p) => pieceStream(p.piece)),
    ]),
  decide: (input, streams, at) => {
    const unknown =
      unknownMaterial(streams, 'kiln', input.kiln, 'kiln') ??
      unknownMaterial(streams, 'schedule', input.schedule, 'schedule');
    if (unknown) return unknown;
    if (unique(input.places.map((p) => p.piece)).length < input.places.length)
      return refuse(
        'packed-twice',
        'The same piece stands twice in this load; split the lot to put it in two places.',
        'places',
      );
    const splits: Recorded[] = [];
    const places = [];
    for (const [n, place] of input.places.entries()) {
      const taken = take(streams, at, place.piece, place.count, n);
      if (isRefused(taken)) return { ...taken, field: `places.${n}.${taken.field ?? 'piece'}` };
      splits.push(...taken.split);
      places.push({ ...place, piece: taken.piece, count: taken.count });
    }
    const touched = unique([firingStream(input.firing), ...input.places.map((p) => pieceStream(p.piece))]);
    return [...splits, records('firing.packed', touched, { ...input, places })];
  },
});

export const unpack = command({
  title: 'Take pieces out of a load',
  input: z.strictObject({ firing: id, pieces: z.array(pieceId).min(1).optional() }),
  streams: (input, loaded) => loadOf(input.firing, loaded),
  decide: (input, streams) => {
    const firing = streams.of(firingKind, input.firing);
    const pieces = input.pieces ?? firing.places.map((p) => p.piece);
    const missing = pieces.find((piece) => !firing.places.some((p) => p.piece === piece));
    if (missing !== undefined || !firing.role || pieces.length === 0)
      return refuse('not-in-this-load', 'That piece is not in this load.', 'pieces');
    const touched = unique([firingStream(input.firing), ...pieces.map(pieceStream)]);
    return [records('firing.unpacked', touched, { firing: input.firing, role: firing.role, pieces })];
  },
});

type OneFiring = { firing: string };

/** A command on a whole firing, recorded under the firing and every piece in it. */
function onFiring<Input extends OneFiring>(
  title: string,
  input: z.ZodType<Input>,
  record: (
    input: Input,
    firing: Firing & { role: NonNullable<Firing['role']> },
    touched: readonly string[],
  ) => Recorded,
  beside: Command<Input>['beside'],
  texts?: readonly string[],
): Command<Input> {
  return command<Input>({
    title,
    input,
    ...(beside ? { beside } : {}),
    ...(texts ? { texts } : {}),
    streams: (asked, loaded) => loadOf(asked.firing, loaded),
    decide: (asked, streams): Decision => {
      const firing = streams.of(firingKind, asked.firing);
      const role = firing.role ?? streams.latest(firingKind, asked.firing).role;
      if (!role)
        return refuse(
          'no-such-firing',
          'There is no such firing at that time; pack it first, or give a later date.',
          'firing',
        );
      return [record(asked, { ...firing, role }, loadOf(asked.firing, streams))];
    },
  });
}

export const light = onFiring(
  'Light the kiln',
  z.strictObject({ firing: id }),
  (input, { role }, touched) => records('firing.lit', touched, { ...input, role }),
  stepBeside('firing.lit'),
);

export const end = onFiring(
  'Note the end of the firing',
  z.strictObject({ firing: id, top: z.number().min(0).max(1_500).optional() }),
  (input, { role }, touched) => records('firing.ended', touched, { ...input, role }),
  stepBeside('firing.ended'),
);

export const draw = onFiring(
  'Draw the kiln',
  z.strictObject({
    firing: id,
    cones: z
      .array(
        z.strictObject({
          shelf: z.number().int().min(1).max(40),
          cone,
          bend: z.enum(['standing', 'leaning', 'down', 'flat']),
        }),
      )
      .max(80)
      .optional(),
    note: freeText().optional(),
  }),
  (input, { role }, touched) => records('firing.drawn', touched, { ...input, role }),
  stepBeside('firing.drawn'),
  ['note'],
);

export const abandon = onFiring(
  'Give up a firing',
  z.strictObject({ firing: id, why: freeText().optional() }),
  (input, { role }, touched) => records('firing.abandoned', touched, { ...input, role }),
  stepBeside('firing.abandoned'),
  ['why'],
);

export const read = onFiring(
  'Note temperatures',
  z.strictObject({
    firing: id,
    readings: z
      .array(z.tuple([z.number(), z.number().min(-50).max(1_500)]))
      .min(1)
      .max(5_000),
  }),
  (input, { role }) => records('firing.read', [firingStream(input.firing)], { ...input, role }),
  undefined,
);
