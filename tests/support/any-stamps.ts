/** Any commands on three stamps, for properties that hold whatever is asked. */
import fc from 'fast-check';
import type { Order } from '../../server/host/host.ts';
import type { Bench } from './bench.ts';

export const STAMP_STREAMS = ['a', 'b', 'c'].map((stamp) => `stamp:${stamp}`);

export interface Any {
  readonly command: string;
  readonly stamp: string;
  readonly other: string;
  readonly when: string;
}

const moment = fc
  .tuple(fc.constantFrom('01', '02', '03'), fc.integer({ min: 10, max: 19 }))
  .map(([day, hour]) => `2026-05-${day}T${hour}:00:00+01:00`);

export const anyCommand: fc.Arbitrary<Any> = fc.record({
  command: fc.constantFrom(
    'stamp.cut',
    'stamp.lend',
    'stamp.return',
    'stamp.swap',
    'stamp.lend-and-return',
    'stamp.note',
  ),
  stamp: fc.constantFrom('a', 'b', 'c'),
  other: fc.constantFrom('a', 'b', 'c'),
  when: fc.oneof(fc.constantFrom('2026-05-01', '2026-05-02', '2026-05-03'), moment),
});

function inputOf({ command, stamp, other }: Any): unknown {
  switch (command) {
    case 'stamp.cut':
    case 'stamp.return':
      return { stamp };
    case 'stamp.swap':
      return { one: stamp, other };
    case 'stamp.note':
      return { stamp, note: `seen with ${other}` };
    default:
      return { stamp, to: other };
  }
}

export const ordersOn = (bench: Bench, list: readonly Any[]): Order[] =>
  list.map((any) => bench.order(any.command, inputOf(any), { happenedAt: any.when }));
