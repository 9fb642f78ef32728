import betaln from '@stdlib/math-base-special-betaln';
import betaQuantile from '@stdlib/stats-base-dists-beta-quantile';
import { describe, expect, test } from 'vitest';
import { chanceLargest, drawAll, drawsFor, spread } from '../../../plugins/seconds-tally/noisy-or/draws.ts';
import {
  buildModel,
  type Model,
  type Observation,
  type Pattern,
} from '../../../plugins/seconds-tally/noisy-or/model.ts';
import { PRIORS } from '../../../plugins/seconds-tally/noisy-or/priors.ts';

const A = 'glaze=bracken-amber';
const B = 'glaze=gannet-grey';
const DAY = 'bisque=daytime-bisque-06';

/** Strikes of what is no glaze, by what they gave. */
interface Other {
  readonly body: number;
  readonly glaze: number;
  readonly weight: number;
}

interface Exact {
  readonly laid: readonly number[];
  readonly chance: readonly number[];
}

/**
 * The posterior means by going through every way in which the causes could have struck, piece by
 * piece. With the chances integrated out, a way weighs B(a + strikes, b + pieces - strikes) / B(a, b)
 * for each cause; likewise for the share of faults of the body among what is no glaze's doing; and
 * each such strike on a zone weighs by the share of the glazes that are there.
 */
function enumerate({ causes, patterns }: Model): Exact {
  const pieces = patterns.flatMap((pattern) => Array<Pattern>(pattern.count).fill(pattern));
  const laid = causes.map(() => 0);
  const chance = causes.map(() => 0);
  let whole = 0;
  const visit = (at: number, strikes: readonly number[], shares: readonly number[], other: Other): void => {
    if (at < pieces.length) {
      const { suspects, sign, share } = pieces[at]!;
      for (let ways = 1; ways < 2 ** suspects.length; ways++) {
        const hit = suspects.filter((_, n) => (ways >> n) & 1);
        const others = hit.filter((n) => causes[n]!.kind !== 'glaze').length;
        visit(
          at + 1,
          strikes.map((s, n) => s + (hit.includes(n) ? 1 : 0)),
          shares.map((s, n) => s + (hit.includes(n) ? 1 / hit.length : 0)),
          {
            body: other.body + (sign === 'body' ? others : 0),
            glaze: other.glaze + (sign === 'glaze' ? others : 0),
            weight: other.weight * (sign === 'glaze' ? share ** others : 1),
          },
        );
      }
      return;
    }
    const weight =
      other.weight *
      Math.exp(
        betaln(1 + other.body, 1 + other.glaze) +
          causes.reduce(
            (sum, { prior: { a, b }, pieces: all }, n) =>
              sum + betaln(a + strikes[n]!, b + all - strikes[n]!) - betaln(a, b),
            0,
          ),
      );
    whole += weight;
    for (const [n, { prior, pieces: all }] of causes.entries()) {
      laid[n]! += weight * shares[n]!;
      chance[n]! += (weight * (prior.a + strikes[n]!)) / (prior.a + prior.b + all);
    }
  };
  const none = causes.map(() => 0);
  visit(0, none, none, { body: 0, glaze: 0, weight: 1 });
  return { laid: laid.map((x) => x / whole), chance: chance.map((x) => x / whole) };
}

const column = (draws: readonly Float64Array[], n: number) => draws.map((draw) => draw[n]!);

/** Standard error of the mean of dependent draws, by batches of 400. */
function monteCarloError(values: readonly number[]): number {
  const means: number[] = [];
  for (let at = 0; at + 400 <= values.length; at += 400) means.push(spread(values.slice(at, at + 400)).mean);
  const mean = spread(means).mean;
  const variance = means.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (means.length - 1);
  return Math.sqrt(variance / means.length);
}

const small: readonly (readonly [string, readonly Observation[]])[] = [
  [
    'two glazes, sometimes on one piece',
    [
      { present: [A], count: 6 },
      { present: [A], suspects: [A], count: 2 },
      { present: [B], count: 9 },
      { present: [A, B], count: 3 },
      { present: [A, B], suspects: [A, B], count: 2 },
    ],
  ],
  [
    'a fault on the zone of one of two glazes',
    [
      { present: [A], count: 6 },
      { present: [B], count: 7 },
      { present: [B], suspects: [B], count: 1 },
      { present: [A, B], count: 5 },
      { present: [A, B], suspects: [A], count: 2 },
      { present: [A, B], suspects: [], count: 1 },
    ],
  ],
  [
    'a glaze and a schedule that mostly come together',
    [
      { present: [A, DAY], count: 4 },
      { present: [A, DAY], suspects: [A, DAY], count: 3 },
      { present: [A, 'bisque=overnight'], count: 2 },
      { present: ['bisque=overnight'], count: 12 },
      { present: ['bisque=overnight'], suspects: ['bisque=overnight'], count: 1 },
      { present: [DAY], suspects: [DAY], count: 1 },
    ],
  ],
  [
    'a fault that no glaze can give',
    [
      { present: [A, 'firing=G1'], count: 5 },
      { present: [A, 'firing=G1'], suspects: [A, 'firing=G1'], count: 2 },
      { present: [A, 'firing=G1'], suspects: ['firing=G1'], count: 1 },
      { present: ['firing=G2'], count: 8 },
      { present: ['firing=G2'], suspects: [], count: 1 },
    ],
  ],
];

describe.each(small)('the draws for %s', (_, observed) => {
  const model = buildModel(observed);
  const exact = enumerate(model);
  const draws = drawAll(model, 11, 40_000);

  test('agree with going through every possibility', () => {
    for (const n of model.causes.keys()) {
      for (const [found, wanted] of [
        [column(draws.laid, n), exact.laid[n]!],
        [column(draws.chance, n), exact.chance[n]!],
      ] as const)
        expect(Math.abs(spread(found).mean - wanted)).toBeLessThan(4 * monteCarloError(found) + 1e-9);
    }
  });

  test('add up, in every draw, to the seconds that were seen', () => {
    for (const draw of draws.laid)
      expect(draw.reduce((sum, laid) => sum + laid, 0)).toBeCloseTo(model.seconds, 9);
  });
});

describe('the draws', () => {
  test('of one cause alone follow its Beta distribution, and lay every second at its door', () => {
    const model = buildModel(
      [
        { present: [A], count: 22 },
        { present: [A], suspects: [A], count: 9, lost: 4_500 },
      ],
      { background: false },
    );
    const { chance, laid, lost } = drawAll(model, 3, 20_000);
    const { mean, low, high } = spread(column(chance, 0));
    const [a, b] = [PRIORS.glaze.a + 9, PRIORS.glaze.b + 22];
    expect(mean).toBeCloseTo(a / (a + b), 2);
    expect(low).toBeCloseTo(betaQuantile(0.05, a, b), 2);
    expect(high).toBeCloseTo(betaQuantile(0.95, a, b), 2);
    expect(laid.every((draw) => draw[0] === 9)).toBe(true);
    expect(lost[0]).toBeCloseTo(4_500, 6);
  });

  /* Many pieces alike are shared out at once, by halving: that must not change the answer. */
  test('share out many pieces alike as they would one by one', () => {
    const observed = (parts: number): Observation[] => [
      { present: [], count: 900 },
      { present: [], suspects: [], count: 90 },
      { present: [A], count: 600 },
      ...Array.from({ length: parts }, () => ({ present: [A], suspects: [A], count: 240 / parts })),
    ];
    const together = buildModel(observed(1));
    const apart = {
      ...together,
      patterns: together.patterns.flatMap((it) => Array(it.count).fill({ ...it, count: 1 }) as (typeof it)[]),
    };
    const one = column(drawAll(together, 5, 6_000).laid, 0);
    const other = column(drawAll(apart, 6, 6_000).laid, 0);
    const error = Math.hypot(monteCarloError(one), monteCarloError(other));
    expect(Math.abs(spread(one).mean - spread(other).mean)).toBeLessThan(4 * error);
    expect(spread(one).low / spread(other).low).toBeCloseTo(1, 1);
    expect(spread(one).high / spread(other).high).toBeCloseTo(1, 1);
  });

  test('are the same for the same seed, and others for another', () => {
    const model = buildModel(small[0]![1]);
    expect(drawAll(model, 8, 200)).toEqual(drawAll(model, 8, 200));
    expect(drawAll(model, 8, 200)).not.toEqual(drawAll(model, 9, 200));
  });

  test('are fewer for a record with very many kinds of piece, never fewer than two hundred', () => {
    const model = buildModel(small[0]![1]);
    expect(drawsFor(model)).toBe(1_500);
    const many = Array.from({ length: 20_000 }, () => model.patterns[0]!);
    expect(drawsFor({ ...model, patterns: many })).toBe(150);
  });
});

describe('the largest of a draw', () => {
  test('is shared by those that are level, and is nobody where all are nothing', () => {
    const draws = [
      [3, 1],
      [2, 2],
      [0, 0],
      [0, 4],
    ].map((draw) => Float64Array.from(draw));
    expect([...chanceLargest(draws, [0, 1]).values()]).toEqual([1.5 / 4, 1.5 / 4]);
  });
});
