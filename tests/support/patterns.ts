/**
 * A pattern where a text is expected must match that text. Without this `toMatchObject({ sentence: /…/ })` would
 * hold for every sentence: a pattern has no fields of its own that could differ.
 */
import { expect } from 'vitest';

expect.addEqualityTesters([
  (found: unknown, expected: unknown) =>
    expected instanceof RegExp && !(found instanceof RegExp)
      ? typeof found === 'string' && expected.test(found)
      : undefined,
]);
