/** Seeded chance for simulated checks. */
import uniform from '@stdlib/random-base-uniform';

export const seededUniform = (seed: number): (() => number) => uniform.factory(0, 1, { seed });
