import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { PROBLEMS } from '../../server/http/problems.ts';
import { problemsPage } from '../../server/http/problems-page.ts';
import { smallApp } from './small-studio.ts';

test('the reference page lists exactly the problems there are', () => {
  const page = readFileSync(new URL('../../docs/reference/problems.md', import.meta.url), 'utf8');
  expect(page).toBe(problemsPage());
});

test.each(Object.keys(PROBLEMS))('the type of the problem %s leads to its explanation', async (code) => {
  const { ask } = smallApp();
  expect(await (await ask(`/api/problems/${code}`)).json()).toEqual({
    code,
    ...PROBLEMS[code as keyof typeof PROBLEMS],
  });
});

test.each(Object.entries(PROBLEMS))(
  'the sentence of %s is a sentence, without computing words',
  (_code, { sentence }) => {
    expect(sentence).toMatch(/^[A-Z].*\.$/);
    expect(sentence).not.toMatch(/exception|stack|null|undefined|invalid|payload|!/i);
  },
);
