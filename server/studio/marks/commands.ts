/** Reserving a run of foot marks. */
import { z } from 'zod';
import { command } from '../../contract/plugin.ts';
import { refuse } from '../../contract/streams.ts';
import { id } from '../../contract/studio/values.ts';
import { records } from '../piece/part.ts';
import { markClaim, marksFor, marksKind, marksStream } from './marks.ts';

/** So many are enough for days, and few enough that they are free together. */
const MOST_AT_ONCE = 50;

export const reserve = command({
  title: 'Reserve foot marks for a device',
  input: z.strictObject({
    /** Names the run; a new one each time. */
    run: id,
    count: z.number().int().min(1).max(MOST_AT_ONCE).default(20),
  }),
  streams: (input) => [marksStream(input.run)],
  decide: (input, streams, at) => {
    if (streams.latest(marksKind, input.run).marks.length > 0)
      return refuse(
        'already-reserved',
        'This run of foot marks was reserved already; name a new one.',
        'run',
      );
    const marks = marksFor(at.command, at.attempt, input.count);
    return [
      records('mark.reserved', [marksStream(input.run)], { run: input.run, marks }, marks.map(markClaim)),
    ];
  },
});
