import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { type Bench, openBench } from '../support/bench.ts';

let bench: Bench;
beforeEach(async () => {
  bench = await openBench();
});
afterEach(() => bench.end());

const cut = (stamp: string) => ['stamp.cut', { stamp }] as const;
const refusal = (outcome: Awaited<ReturnType<Bench['ask']>>) => {
  if (outcome.outcome !== 'refused') throw new Error(`it was ${outcome.outcome}`);
  return outcome.refusal;
};

describe('what does not fit is named, with what would be right', () => {
  test.each([
    [
      'a command that nobody knows',
      'stamp.burn',
      {},
      'no-such-command',
      'command',
      /no command “stamp.burn”/,
    ],
    ['a missing field', 'stamp.cut', {}, 'bad-input', 'stamp', /“stamp” is missing; it should be text/],
    ['a number for a name', 'stamp.cut', { stamp: 7 }, 'bad-input', 'stamp', /“stamp” should be text/],
    ['too little text', 'stamp.cut', { stamp: '' }, 'bad-input', 'stamp', /at least 1 letter long/],
    [
      'a field too many',
      'stamp.cut',
      { stamp: 'fern', colour: 'red' },
      'bad-input',
      undefined,
      /“colour” is not known here/,
    ],
  ])('%s', async (_, command, input, code, field, sentence) => {
    const refused = refusal(await bench.ask(command, input));
    expect(refused).toMatchObject({ code });
    expect(refused.field).toBe(field);
    expect(refused.sentence).toMatch(sentence);
  });

  test.each([
    [
      'a day that is not in the calendar',
      '2026-02-30',
      'bad-input',
      /“2026-02-30” is not a day of the calendar/,
    ],
    ['a day written another way', '31/02/2026', 'bad-input', /write it like 2026-05-01/],
    [
      'a moment without its offset',
      '2026-05-01T10:15:00',
      'bad-input',
      /not a day of the calendar, nor a moment/,
    ],
    ['next week', '2026-07-07', 'in-the-future', /7 July 2026 is still to come; .* today \(30 June 2026\)/],
    ['a year with a digit missing', '0206-05-01', 'bad-input', /too long ago/],
  ])('%s', async (_, happenedAt, code, sentence) => {
    const refused = refusal(await bench.ask(...cut('fern'), { happenedAt }));
    expect(refused).toMatchObject({ code, field: 'happenedAt' });
    expect(refused.sentence).toMatch(sentence);
  });

  test('a day ahead is let be: somewhere it is tomorrow already', async () => {
    expect(await bench.ask(...cut('fern'), { happenedAt: '2026-07-01' })).toMatchObject({
      outcome: 'recorded',
    });
  });
});
