import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { aliased, refusalOf } from '../../../server/contract/statistics/aliased.ts';
import { firth, profileLimits } from '../../../server/contract/statistics/firth.ts';
import { type Cell, linear, logistic } from '../../../server/contract/statistics/logistic.ts';

const close = (found: readonly number[], expected: readonly number[], digits: number) => {
  for (const [n, value] of expected.entries()) expect(found[n]!).toBeCloseTo(value, digits);
};

describe('logistic regression', () => {
  /* S. R. Dalal et al., JASA 84 (1989) 945–957: 23 flights; 15.0429 and −.2322 from memory, digits by R 4.2.2. */
  const TEMPERATURES = [
    66, 70, 69, 68, 67, 72, 73, 70, 57, 63, 70, 78, 67, 53, 67, 75, 70, 81, 76, 79, 75, 76, 58,
  ];
  const DISTRESS = [0, 1, 0, 0, 0, 0, 0, 0, 1, 1, 1, 0, 0, 1, 0, 0, 0, 0, 0, 0, 1, 0, 1];
  const flights: Cell[] = TEMPERATURES.map((t, n) => ({ x: [1, t], affected: DISTRESS[n]!, pieces: 1 }));

  test('of the shuttle flights has the published coefficients, errors and deviance', () => {
    const fit = logistic(flights)!;
    close(fit.coefficients, [15.0429016, -0.2321627], 6);
    // R's errors are those of its last step but one: five figures.
    close(fit.errors, [7.3786301, 0.1082364], 4);
    expect(fit.deviance).toBeCloseTo(20.31519, 5);
    expect(1 / (1 + Math.exp(-linear([1, 31], fit.coefficients)))).toBeCloseTo(0.9996088, 7);
    expect(logistic(flights.map((f) => ({ ...f, x: [1] })))!.deviance).toBeCloseTo(28.26715, 5);
  });

  /* OpenIntro Statistics, ch. 6 (O-rings damaged of six); digits by R 4.2.2. */
  test('of grouped counts has the published coefficients', () => {
    const temperatures = [
      53, 57, 58, 63, 66, 67, 67, 67, 68, 69, 70, 70, 70, 70, 72, 73, 75, 75, 76, 76, 78, 79, 81,
    ];
    const damaged = [5, 1, 1, 1, 0, 0, 0, 0, 0, 0, 1, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 0];
    const fit = logistic(temperatures.map((t, n) => ({ x: [1, t], affected: damaged[n]!, pieces: 6 })))!;
    close(fit.coefficients, [11.66299, -0.2162337], 5);
    close(fit.errors, [3.296263, 0.05317703], 5);
    expect(fit.deviance).toBeCloseTo(16.91228, 5);
  });

  /* D. Collett and A. A. Jemain, Sains Malaysiana 14 (1985); R package HSAUR3, plasma; digits by R 4.2.2. */
  test('of the plasma proteins has the published coefficients', () => {
    const high = '5.06,37 3.34,32 2.38,37 3.53,46 2.09,44 3.93,32';
    const low =
      '2.52,38 2.56,31 2.19,33 2.18,31 3.41,37 2.46,36 3.22,38 2.21,37 3.15,39 2.60,41 2.29,36 2.35,29 3.15,36 2.68,34 2.60,38 2.23,37 2.88,30 2.65,46 2.28,36 2.67,39 2.29,31 2.15,31 2.54,28 3.34,30 2.99,36 3.32,35';
    const rows = (text: string, affected: number) =>
      text.split(' ').map((pair) => ({ x: [1, ...pair.split(',').map(Number)], affected, pieces: 1 }));
    const cells = [...rows(high, 1), ...rows(low, 0)];
    const both = logistic(cells)!;
    close(both.coefficients, [-12.7920764, 1.9103687, 0.1557782], 6);
    expect(both.deviance).toBeCloseTo(22.971114, 6);
    const one = logistic(cells.map((c) => ({ ...c, x: c.x.slice(0, 2) })))!;
    close(one.coefficients, [-6.8450749, 1.8270808], 6);
    close(one.errors, [2.7702849, 0.9008553], 5);
    expect(one.deviance).toBeCloseTo(24.840356, 6);
  });

  test('has no answer where the outcome is separated', () => {
    expect(logistic(endometrial)).toBeUndefined();
  });
});

/* Endometrial cancer, 79 women: G. Heinze and M. Schemper, Stat. Med. 21 (2002) 2409–2419; data from R package brglm2. */
const endometrial: Cell[] = readFileSync(new URL('../../data/endometrial.csv', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .slice(1)
  .map((line) => {
    const [nv, pi, eh, hg] = line.split(',').map(Number) as [number, number, number, number];
    return { x: [1, nv, pi, eh], affected: hg, pieces: 1 };
  });

describe('Firth’s penalised regression', () => {
  const fit = firth(endometrial)!;

  /* Printed 3.775, 2.929, −.035, −2.604 (from memory); digits by R 4.2.2 and R package brglm2, AS_mean. */
  test('of the endometrial data has the published coefficients and errors, though one covariate separates', () => {
    close(fit.coefficients.slice(1), [2.92927335, -0.03475176, -2.60416393], 8);
    // The reference digits at hand end in …5951 for the intercept; the score is nil at …5971.
    expect(fit.coefficients[0]!).toBeCloseTo(3.774559, 5);
    close(fit.errors, [1.48869166, 1.55076373, 0.03957815, 0.77601764], 8);
  });

  /* Profile limits of NV: about 0.61 and 7.85, R package logistf, from memory and to two digits only. */
  test('has profile limits that are finite, lopsided and hold the coefficient', () => {
    const nv = profileLimits(endometrial, fit, 1);
    expect(nv.low).toBeCloseTo(0.61, 1);
    expect(nv.high).toBeCloseTo(7.85, 1);
    const eh = profileLimits(endometrial, fit, 3);
    expect(eh.low).toBeLessThan(-2.604);
    expect(eh.high).toBeLessThan(0);
  });

  test('of one yes-or-no factor adds one half to each count', () => {
    /* D. Firth, Biometrika 80 (1993) 27–38: in a saturated fourfold table the penalty is Haldane's half. */
    const [b0, b1] = firth([
      { x: [1, 0], affected: 3, pieces: 20 },
      { x: [1, 1], affected: 7, pieces: 7 },
    ])!.coefficients;
    expect(b0).toBeCloseTo(Math.log(3.5 / 17.5), 8);
    expect(b1).toBeCloseTo(Math.log(7.5 / 0.5) - Math.log(3.5 / 17.5), 8);
  });

  test('does not mind whether pieces are told one by one or by count', () => {
    const grouped = [
      { x: [1, 0], affected: 3, pieces: 20 },
      { x: [1, 1], affected: 5, pieces: 7 },
    ];
    const single = grouped.flatMap(({ x, affected, pieces }) =>
      Array.from({ length: pieces }, (_, n) => ({ x, affected: n < affected ? 1 : 0, pieces: 1 })),
    );
    close(firth(single)!.coefficients, firth(grouped)!.coefficients, 8);
  });
});

describe('what the record cannot tell apart', () => {
  const quick = [1, 1, 0, 0, 1, 0];
  test('is refused by the names of the two that always go together', () => {
    const factors = [
      { name: 'Samphire Matt', columns: [quick] },
      { name: 'Grit House', columns: [[0, 1, 1, 0, 1, 1]] },
      { name: 'Daytime Bisque 06', columns: [quick] },
    ];
    expect(aliased(factors)).toEqual(['Samphire Matt', 'Daytime Bisque 06']);
    expect(refusalOf(factors)).toBe(
      'The record cannot tell Samphire Matt and Daytime Bisque 06 apart: they always change together.',
    );
  });

  test('is refused also where three only together are tangled', () => {
    const [one, two] = [
      [1, 0, 0, 1, 0, 0],
      [0, 1, 0, 0, 1, 0],
    ];
    const third = one.map((value, n) => value + two[n]!);
    const names = aliased([
      { name: 'a', columns: [one] },
      { name: 'b', columns: [two] },
      { name: 'c', columns: [third] },
      { name: 'd', columns: [[1, 1, 1, 0, 0, 0]] },
    ]);
    expect(names).toEqual(['a', 'b', 'c']);
  });

  test('names what never varies, and nothing where all can be told', () => {
    expect(refusalOf([{ name: 'clay', columns: [[1, 1, 1]] }])).toMatch(/Only one kind of clay/);
    expect(refusalOf([{ name: 'clay', columns: [[1, 0, 1]] }])).toBeUndefined();
  });
});
