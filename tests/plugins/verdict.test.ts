import { describe, expect, test } from 'vitest';
import type { BlameRow } from '../../plugins/seconds-tally/blame-rows.ts';
import { answerSentence, verdict } from '../../plugins/seconds-tally/verdict.ts';

const row = (more: Partial<BlameRow>): BlameRow => ({
  kind: 'glaze',
  members: ['glaze=samphire-matt'],
  pieces: 100,
  seconds: 30,
  rate: 0.3,
  low: 0.22,
  high: 0.4,
  laid: 5,
  laidLow: 0,
  laidHigh: 12,
  ownRate: 0.04,
  ownLow: 0.001,
  ownHigh: 0.13,
  chanceWorst: 0,
  chanceHighestRate: 0,
  lost: 0,
  ...more,
});
const name = (key: string) => (key === 'glaze=samphire-matt' ? 'Samphire Matt' : 'Fell White');
const of = (more: Partial<BlameRow>) => verdict(row(more), 0.15, name);

describe('of a glaze is said', () => {
  test.each([
    ['adds seconds of its own', { ownLow: 0.03 }],
    ['looks bad, but most of its seconds have another cause', {}],
    ['looks bad, but most of its seconds probably have another cause', { laid: 8, laidHigh: 16 }],
    ['too few to say', { laid: 12, laidHigh: 20 }],
    ['too few to say', { pieces: 11, seconds: 4, laid: 1, laidHigh: 1.5 }],
    ['too few to say', { rate: 0.1 }],
    ['little or nothing of its own', { rate: 0.1, ownHigh: 0.05 }],
    ['cannot be told from Fell White', { members: ['glaze=samphire-matt', 'clay=fell-white'] }],
  ])('“%s”', (said, more) => {
    expect(of(more)).toBe(said);
  });
});

describe('the sentence', () => {
  const sentence = (more: Partial<BlameRow>, seen = { pieces: 500, seconds: 75 }) =>
    answerSentence([row(more)], seen, name);

  test.each([
    [/^Samphire Matt caused the most: 20 of its 30 /, { laid: 20, ownLow: 0.1, chanceWorst: 0.95 }],
    [/^Samphire Matt probably caused the most: 20 of its 30 /, { laid: 20, ownLow: 0.1, chanceWorst: 0.6 }],
    [/^Too few to say .* a chance of 40 %/, { laid: 20, ownLow: 0.1, chanceWorst: 0.4 }],
    [/^Too few to say .* a chance of 95 %/, { chanceWorst: 0.95 }],
    [/^No glaze stands out: /, { ownHigh: 0.05, chanceWorst: 0.95 }],
  ])('matches %s', (said, more) => {
    expect(sentence(more)).toMatch(said);
  });

  test('says when there is nothing to share out', () => {
    expect(sentence({}, { pieces: 0, seconds: 0 })).toBe('No graded pieces in this time.');
    expect(sentence({}, { pieces: 9, seconds: 0 })).toBe('No seconds and no wasters among 9 graded pieces.');
    expect(answerSentence([], { pieces: 9, seconds: 1 }, name)).toBe('No glaze is noted on these pieces.');
  });
});
