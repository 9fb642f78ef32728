/**
 * A small invented plugin for what the studio's own does not show: stamps are cut, lent out and
 * brought back, swapped for one another, and noted on.
 */
import { z } from 'zod';
import { command, definePlugin, event } from '../../server/contract/plugin.ts';
import { type Recorded, refuse, type StreamKind } from '../../server/contract/streams.ts';
import { type TextRef, textRef } from '../../server/contract/text.ts';

export interface Stamp {
  readonly stamp: string;
  readonly label?: string;
  readonly lentTo?: string;
  /** How often it was lent. */
  readonly lent: number;
  readonly notes: readonly TextRef[];
}

const id = z.string().min(1).max(40);
const stream = (stamp: string) => `stamp:${stamp}`;
const labelClaim = (label: string) => `stamp-label:${label}`;

export const stampKind: StreamKind<Stamp> = {
  prefix: 'stamp',
  initial: (stamp) => ({ stamp, lent: 0, notes: [] }),
  evolve: (state, { name, data }) => {
    const told = data as { label: string; to: string; note: TextRef };
    if (name === 'stamp.cut') return { ...state, label: told.label };
    if (name === 'stamp.lent') return { ...state, lentTo: told.to, lent: state.lent + 1 };
    if (name === 'stamp.returned') return { ...state, lentTo: undefined };
    if (name === 'stamp.noted') return { ...state, notes: [...state.notes, told.note] };
    return state;
  },
  legal: (state, { name }) => {
    if (name === 'stamp.cut') return state.label ? `Stamp ${state.label} was cut already.` : undefined;
    if (!state.label) return 'This stamp was not cut yet at that time.';
    if (name === 'stamp.lent' && state.lentTo)
      return `Stamp ${state.label} is lent to ${state.lentTo}; it must come back first.`;
    if (name === 'stamp.swapped' && state.lentTo)
      return `Stamp ${state.label} is lent out and cannot be swapped.`;
    if (name === 'stamp.returned' && !state.lentTo) return `Stamp ${state.label} is not lent.`;
    return undefined;
  },
};

const records = (
  name: string,
  stamps: readonly string[],
  data: unknown,
  claims?: readonly string[],
): Recorded => ({
  name,
  streams: stamps.map(stream),
  data,
  ...(claims ? { claims } : {}),
});

export const stamps = definePlugin({
  id: 'stamps',
  contract: 1,
  about: 'Where the texture stamps are.',
  needs: [],
  prefixes: ['stamp'],
  events: {
    'stamp.cut': event({
      rank: 0,
      shape: z.strictObject({ stamp: id, label: z.string() }),
      // Version 1 called the label a name.
      upcasts: [
        (old) => ({ stamp: (old as { stamp: string }).stamp, label: (old as { name: string }).name }),
      ],
    }),
    'stamp.lent': event({ rank: 20, shape: z.strictObject({ stamp: id, to: z.string() }) }),
    'stamp.swapped': event({ rank: 25, shape: z.strictObject({ one: id, other: id }) }),
    'stamp.returned': event({ rank: 30, shape: z.strictObject({ stamp: id }) }),
    'stamp.noted': event({ rank: 90, shape: z.strictObject({ stamp: id, note: textRef }) }),
  },
  streams: [stampKind],
  commands: {
    'stamp.cut': command({
      title: 'Cut a stamp',
      input: z.strictObject({ stamp: id, label: z.string().min(1).optional() }),
      streams: ({ stamp }) => [stream(stamp)],
      decide: ({ stamp, label }, streams, at) => {
        if (streams.latest(stampKind, stamp).label)
          return refuse('cut-already', 'This stamp was cut already.', 'stamp');
        const given = label ?? `S${at.attempt}`;
        return [records('stamp.cut', [stamp], { stamp, label: given }, [labelClaim(given)])];
      },
    }),
    'stamp.lend': command({
      title: 'Lend a stamp',
      input: z.strictObject({ stamp: id, to: z.string().min(1) }),
      streams: ({ stamp }) => [stream(stamp)],
      decide: ({ stamp, to }, streams) => {
        const { lentTo } = streams.of(stampKind, stamp);
        if (lentTo === to) return [];
        return [records('stamp.lent', [stamp], { stamp, to })];
      },
    }),
    'stamp.return': command({
      title: 'Take a stamp back',
      input: z.strictObject({ stamp: id }),
      streams: ({ stamp }) => [stream(stamp)],
      decide: ({ stamp }) => [records('stamp.returned', [stamp], { stamp })],
    }),
    'stamp.lend-and-return': command({
      title: 'Note that a stamp was lent and came back the same day',
      input: z.strictObject({ stamp: id, to: z.string().min(1) }),
      streams: ({ stamp }) => [stream(stamp)],
      decide: ({ stamp, to }) => [
        records('stamp.lent', [stamp], { stamp, to }),
        records('stamp.returned', [stamp], { stamp }),
      ],
    }),
    'stamp.swap': command({
      title: 'Swap two stamps',
      input: z.strictObject({ one: id, other: id }),
      streams: ({ one, other }) => [stream(one), stream(other)],
      decide: ({ one, other }) => [records('stamp.swapped', [one, other], { one, other })],
    }),
    'stamp.note': command({
      title: 'Note something on a stamp',
      input: z.strictObject({ stamp: id, note: z.string().trim().min(1).max(2_000) }),
      texts: ['note'],
      streams: ({ stamp }) => [stream(stamp)],
      decide: ({ stamp, note }) => [records('stamp.noted', [stamp], { stamp, note })],
    }),
  },
});
