/** Published counts that several checks use. */
import type { Count } from '../../../server/contract/statistics/interval.ts';

/**
 * Tumours in groups of rats: R. E. Tarone, Biometrics 38 (1982) 215–220; A. Gelman et al., Bayesian
 * Data Analysis, 3rd ed., Table 5.1, from the authors' demonstrations (demo5_1.R). The current experiment, 4 of 14, is last.
 */
const TUMOURS = [
  ...Array<number>(14).fill(0),
  ...Array<number>(8).fill(1),
  2,
  2,
  2,
  2,
  2,
  2,
  2,
  2,
  2,
  1,
  5,
  2,
  5,
  3,
  2,
  7,
  7,
  3,
  3,
  2,
  9,
  10,
  4,
  4,
  4,
  4,
  4,
  4,
  4,
  10,
  4,
  4,
  4,
  5,
  11,
  12,
  5,
  5,
  6,
  5,
  6,
  6,
  6,
  6,
  16,
  15,
  15,
  9,
  4,
];
const GROUPS = [
  20, 20, 20, 20, 20, 20, 20, 19, 19, 19, 19, 18, 18, 17, 20, 20, 20, 20, 19, 19, 18, 18, 25, 24, 23, 20, 20,
  20, 20, 20, 20, 10, 49, 19, 46, 27, 17, 49, 47, 20, 20, 13, 48, 50, 20, 20, 20, 20, 20, 20, 20, 48, 19, 19,
  19, 22, 46, 49, 20, 20, 23, 19, 22, 20, 20, 20, 52, 46, 47, 24, 14,
];
export const RATS: readonly Count[] = TUMOURS.map((affected, n) => ({ affected, pieces: GROUPS[n]! }));

/** Hits of eighteen batters in their first 45 at-bats: B. Efron and C. Morris, JASA 70 (1975) 311–319, Table 1 (R package rstanarm, bball1970). */
export const HITS = [18, 17, 16, 15, 14, 14, 13, 12, 11, 11, 10, 10, 10, 10, 10, 9, 8, 7];
export const AT_BATS = 45;

/** Cans that failed in thirty samples of fifty: D. C. Montgomery, Introduction to Statistical Quality Control; counts from memory. */
export const CANS: readonly Count[] = [
  12, 15, 8, 10, 4, 7, 16, 9, 14, 10, 5, 6, 17, 12, 22, 8, 10, 5, 13, 11, 20, 18, 24, 15, 9, 12, 7, 13, 9, 6,
].map((affected) => ({ affected, pieces: 50 }));
