/** Glazing by zone and layer. */
import { z } from 'zod';
import { command } from '../../contract/plugin.ts';
import { count, layer, pieceId, word } from '../../contract/studio/values.ts';
import { SETTINGS_STREAM, unknownMaterial, unknownWord } from '../materials/known.ts';
import { glazedBeside } from './beside.ts';
import { pieceStream } from './lot.ts';
import { isRefused, records, take } from './part.ts';

export const glaze = command({
  title: 'Glaze a zone',
  input: z.strictObject({
    piece: pieceId,
    /** Some of the lot only: they are split off. */
    count: count.optional(),
    /** Left out, the zone is not known. */
    zone: word.optional(),
    /** Lowest layer first. */
    layers: z.array(layer).min(1).max(12),
    wipedBack: z.boolean().optional(),
    stagesNotNoted: z.boolean().optional(),
  }),
  streams: (input) => [
    pieceStream(input.piece),
    SETTINGS_STREAM,
    ...input.layers.map((l) => `glaze:${l.glaze}`),
  ],
  beside: glazedBeside,
  decide: (input, streams, at) => {
    const { count: some, ...data } = input;
    const unknown =
      unknownWord(streams, 'zone', input.zone, 'zone') ??
      input.layers
        .map((l, n) => unknownMaterial(streams, 'glaze', l.glaze, `layers.${n}.glaze`))
        .find(Boolean);
    if (unknown) return unknown;
    const taken = take(streams, at, input.piece, some);
    if (isRefused(taken)) return taken;
    return [
      ...taken.split,
      records('glaze.applied', [pieceStream(input.piece)], { ...data, piece: taken.piece }),
    ];
  },
});
