/**
 * Adjusted values of many tests at once: Y. Benjamini and Y. Hochberg, JRSS-B 57 (1995) 289–300.
 * The running minimum from the largest p down keeps the order. In the order given; a missing test
 * (null) stays missing and does not count as one.
 */
export function benjaminiHochberg(values: readonly (number | null)[]): (number | null)[] {
  const tests = values
    .flatMap((p, at) => (p === null ? [] : [{ p, at }]))
    .toSorted((one, other) => other.p - one.p);
  const adjusted: (number | null)[] = values.map(() => null);
  let least = 1;
  for (const [n, { p, at }] of tests.entries()) {
    least = Math.min(least, (p * tests.length) / (tests.length - n));
    adjusted[at] = least;
  }
  return adjusted;
}
