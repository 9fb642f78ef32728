import { expect, test } from 'vitest';

test('a pattern in a test must match: a wrong sentence fails it', () => {
  const said = { rows: [{ sentence: 'The kiln is cooling.' }] };
  expect(said).toMatchObject({ rows: [{ sentence: /cooling/ }] });
  expect(() => expect(said).toMatchObject({ rows: [{ sentence: /firing/ }] })).toThrow();
});
