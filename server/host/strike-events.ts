/** The host's own event and command: an entry is struck out, never changed or removed. */
import { z } from 'zod';
import { CONTRACT, command, definePlugin, event } from '../contract/plugin.ts';
import { refuse } from '../contract/streams.ts';
import { type TextRef, textRef } from '../contract/text.ts';

export const STRUCK = 'entry.struck';
export const STRIKE = 'entry.strike';

/** Data of `entry.struck`. */
export interface Struck {
  /** The entry that is struck out; striking a strike brings its entry back. */
  readonly seq: number;
  readonly why?: TextRef;
}

export const hostPlugin = definePlugin({
  id: 'host',
  contract: CONTRACT,
  about: 'Strikes out entries that were wrong.',
  needs: [],
  prefixes: ['entry'],
  events: {
    [STRUCK]: event<Struck>({
      rank: 100,
      shape: z.strictObject({ seq: z.number().int().min(1), why: textRef.optional() }),
    }),
  },
  commands: {
    [STRIKE]: command({
      title: 'Strike out an entry',
      input: z
        .strictObject({
          seqs: z.array(z.number().int().min(1)).min(1).max(1_000).optional(),
          command: z.string().min(1).max(64).optional(),
          why: z.string().trim().min(1).max(2_000).optional(),
          withResting: z.boolean().optional(),
        })
        .refine((input) => (input.seqs === undefined) !== (input.command === undefined), {
          message: 'either the entries or the command whose entries are to go',
          path: ['seqs'],
        }),
      texts: ['why'],
      streams: () => [],
      // It must look through the whole log, which a plugin's decision cannot: see strike.ts.
      decide: () => refuse('not-by-a-plugin', 'Entries are struck out by the host itself.'),
    }),
  },
});
