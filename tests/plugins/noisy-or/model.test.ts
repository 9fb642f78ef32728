import { describe, expect, test } from 'vitest';
import { emStep, fitByEm, startAt } from '../../../plugins/seconds-tally/noisy-or/em.ts';
import { outstanding } from '../../../plugins/seconds-tally/noisy-or/firings.ts';
import {
  BACKGROUND,
  buildModel,
  chanceSpoiled,
  type Observation,
} from '../../../plugins/seconds-tally/noisy-or/model.ts';
import { FLAT } from '../../../plugins/seconds-tally/noisy-or/priors.ts';

describe('the chance that at least one cause strikes', () => {
  /*
   * Russell & Norvig, Artificial Intelligence: A Modern Approach, 14.3: fever from cold, flu and
   * malaria, with chances to escape of .6, .2 and .1. The whole table, as printed.
   */
  test.each([
    [[], 0],
    [[0.9], 0.9],
    [[0.8], 0.8],
    [[0.8, 0.9], 0.98],
    [[0.4], 0.4],
    [[0.4, 0.9], 0.94],
    [[0.4, 0.8], 0.88],
    [[0.4, 0.8, 0.9], 0.988],
  ])('of %j is %f', (chances, fever) => {
    expect(chanceSpoiled(chances)).toBeCloseTo(fever, 12);
  });

  /* P(e) = 1 - (1 - leak) * prod (1 - p): the NoisyOrDist function in the help of Norsys Netica; Pearl 1988, p. 184. */
  test('takes a leak as one more cause', () => {
    const leak = 0.05;
    expect(chanceSpoiled([leak, 0.4, 0.8])).toBeCloseTo(1 - (1 - leak) * (1 - 0.4) * (1 - 0.8), 12);
  });
});

/*
 * Low birth weight by smoking, hypertension and uterine irritability: Hosmer & Lemeshow (1989), the
 * data `birthwt` of R's package MASS. Cells: smoke, ht, ui, births, of them low.
 */
const BIRTHS: readonly (readonly [number, number, number, number, number])[] = [
  [0, 0, 0, 93, 18],
  [1, 0, 0, 56, 20],
  [0, 1, 0, 7, 4],
  [1, 1, 0, 5, 3],
  [0, 0, 1, 15, 7],
  [1, 0, 1, 13, 7],
];
const births: readonly Observation[] = BIRTHS.flatMap(([smoke, ht, ui, all, low]) => {
  const present = [
    ...(smoke ? ['glaze=1-smoke'] : []),
    ...(ht ? ['glaze=2-ht'] : []),
    ...(ui ? ['glaze=3-ui'] : []),
  ];
  return [
    { present, count: all - low },
    { present, suspects: present, count: low },
  ];
});

describe('the fit by EM, on published data', () => {
  const model = buildModel(births, { priors: FLAT });
  const inOrder = (chances: readonly number[]) =>
    [BACKGROUND, 'glaze=1-smoke', 'glaze=2-ht', 'glaze=3-ui'].map(
      (key) => chances[model.causes.findIndex((cause) => cause.key === key)]!,
    );
  const close = (found: readonly number[], wanted: readonly number[], digits: number) => {
    for (const [n, value] of found.entries()) expect(value).toBeCloseTo(wanted[n]!, digits);
  };

  test('takes the first two steps as a reference computation in R does', () => {
    const first = emStep(model, startAt(model, 0.3));
    close(inOrder(first.chances), [0.2158809744, 0.2206880531, 0.3102336825, 0.2612140747], 10);
    close(inOrder(emStep(model, first).chances), [0.2034310722, 0.2068811846, 0.359295184, 0.274272457], 10);
  });

  /* R: glm(cbind(n - y, y) ~ smoke + ht + ui, binomial(link = "log")); 1 - exp of its coefficients. */
  test('comes to what glm in R finds with a log link, by another way', () => {
    const { chances } = fitByEm(model, { most: 100_000, tolerance: 1e-13 });
    close(inOrder(chances), [0.1951641574, 0.1952384498, 0.4393246748, 0.3193367705], 8);
    const [leak, smoke, ht, ui] = inOrder(chances);
    const fitted = BIRTHS.map(([s, h, u]) =>
      chanceSpoiled([leak!, ...(s ? [smoke!] : []), ...(h ? [ht!] : []), ...(u ? [ui!] : [])]),
    );
    close(fitted, [0.1951642, 0.3522991, 0.5487484, 0.6368501, 0.4521778, 0.5591338], 7);
    const logLikelihood = BIRTHS.reduce(
      (sum, [, , , all, low], n) => sum + low * Math.log(fitted[n]!) + (all - low) * Math.log(1 - fitted[n]!),
      0,
    );
    expect(logLikelihood).toBeCloseTo(-109.7165044, 7);
  });
});

describe('a model of one cause', () => {
  const one: readonly Observation[] = [
    { present: ['glaze=marram-green'], count: 22 },
    { present: ['glaze=marram-green'], suspects: ['glaze=marram-green'], count: 9 },
  ];

  test('finds the plain proportion', () => {
    const model = buildModel(one, { priors: FLAT, background: false });
    expect(fitByEm(model).chances[0]).toBeCloseTo(9 / 31, 10);
  });

  test('cannot tell the only glaze there is from what all ware has in common, and says so', () => {
    const model = buildModel(one);
    expect(model.causes.map(({ members }) => members)).toEqual([['glaze=marram-green', BACKGROUND]]);
  });
});

describe('the causes of a model', () => {
  const A = 'glaze=marram-green';
  const B = 'glaze=cuttle-white';
  const plain = { present: [], count: 40 };

  test('that always come together are one, and named together', () => {
    const model = buildModel([
      plain,
      { present: [A, B], count: 20 },
      { present: [A, B], suspects: [A, B], count: 5 },
    ]);
    expect(model.causes.map(({ members }) => members)).toEqual([[B, A], [BACKGROUND]]);
  });

  test('stay two where a fault on one zone tells them apart', () => {
    const model = buildModel([
      plain,
      { present: [A, B], count: 20 },
      { present: [A, B], suspects: [A], count: 5 },
    ]);
    expect(model.causes.map(({ members }) => members)).toEqual([[B], [A], [BACKGROUND]]);
  });

  test('leave out the clay and schedules that others are measured against: the best of the common ones', () => {
    const day = 'bisque=daytime-bisque-06';
    const night = 'bisque=overnight-bisque-06';
    const model = buildModel([
      { present: [night], count: 60 },
      { present: [night], suspects: [night], count: 6 },
      { present: [day], count: 30 },
      { present: [day], suspects: [day], count: 15 },
      { present: ['bisque=rare'], count: 3 },
    ]);
    expect(model.references).toEqual([night]);
    expect(model.causes.map(({ key }) => key)).toEqual([day, 'bisque=rare', BACKGROUND]);
  });

  test('name the clay that a glaze was always on, even where others are measured against that clay', () => {
    const model = buildModel([
      { present: [A, 'clay=fell-white'], count: 60 },
      { present: [A, 'clay=fell-white'], suspects: [A, 'clay=fell-white'], count: 6 },
      { present: ['clay=otterfold-buff'], count: 30 },
      { present: ['clay=otterfold-buff'], suspects: ['clay=otterfold-buff'], count: 15 },
    ]);
    expect(model.causes[0]!.members).toEqual([A, 'clay=fell-white']);
  });

  test('are the background alone where all ware is of one clay', () => {
    const model = buildModel([
      { present: ['clay=fell-white'], count: 30 },
      { present: ['clay=fell-white'], suspects: ['clay=fell-white'], count: 2 },
    ]);
    expect(model.causes.map(({ members }) => members)).toEqual([[BACKGROUND]]);
  });

  test('count all pieces they were on, and group the spoiled ones by who is suspected', () => {
    const model = buildModel([
      plain,
      { present: [A], count: 20 },
      { present: [A], suspects: [A], count: 3, lost: 3_000 },
      { present: [A], suspects: [A], count: 1, lost: 600 },
      { present: [A], suspects: [], count: 2 },
    ]);
    expect(model.causes[0]).toMatchObject({ key: A, pieces: 26, seconds: 6 });
    expect(model.causes[1]).toMatchObject({ key: BACKGROUND, pieces: 66, seconds: 6 });
    expect(model.patterns).toEqual([
      { suspects: [0, 1], sign: 'glaze', share: 1, count: 4, lostEach: 900 },
      { suspects: [1], sign: 'body', share: 1, count: 2, lostEach: 0 },
    ]);
    expect([model.pieces, model.seconds]).toEqual([66, 6]);
  });

  test('refuse a spoiled piece that nothing could have spoiled', () => {
    expect(() => buildModel([{ present: [A], suspects: [], count: 1 }], { background: false })).toThrow(
      /needs a cause/,
    );
  });
});

describe('with more firings than are asked about one by one', () => {
  const firings = [
    { firing: 'a', pieces: 10, seconds: 1 },
    { firing: 'b', pieces: 10, seconds: 6 },
    { firing: 'c', pieces: 40, seconds: 12 },
    { firing: 'd', pieces: 4, seconds: 0 },
  ];

  test('those with the most seconds above the average stand for themselves', () => {
    // 19 of 64 is 30 %: b is 2.1 deviations above it, c 0.0, a 1.4 below.
    expect(outstanding(firings, 1)).toEqual(['b']);
    expect(outstanding(firings, 2)).toEqual(['b', 'c']);
  });

  test('all do while there are few', () => {
    expect(outstanding(firings, 4)).toBeUndefined();
  });
});
