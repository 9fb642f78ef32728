import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { commandLinePage } from '../../server/cli/command-line-page.ts';
import { VERBS } from '../../server/cli/verbs.ts';
import { atTheDesk } from './at-the-desk.ts';

test('without a verb the words are shown, and it counts as wrong', async () => {
  const { code, out, err } = await atTheDesk().type();
  expect(code).toBe(2);
  expect(out).toBe('');
  for (const { usage } of VERBS) expect(err).toContain(usage);
});

test('the reference page lists exactly the verbs there are', () => {
  const page = readFileSync(new URL('../../docs/reference/command-line.md', import.meta.url), 'utf8');
  expect(page).toBe(commandLinePage());
});

test('help is given when it is asked for', async () => {
  const { type } = atTheDesk();
  expect((await type('help')).code).toBe(0);
  expect((await type('verify', '--help')).out).toContain('Walk the whole log');
});

describe.each([
  ['an unknown verb', ['fire'], 'There is no verb fire.'],
  ['an option the verb does not have', ['verify', '--fast'], 'verify has no option --fast.'],
  ['an option without its value', ['verify', '--data'], '--data needs a value after it.'],
  ['a flag with a value', ['restore', 'x', '--force=yes'], '--force takes no value.'],
  ['a word too many', ['verify', 'now'], 'It is: wareboard verify'],
  ['a word too few', ['report', 'shelf'], 'It is: wareboard report PLUGIN REPORT'],
  [
    'a report parameter without its value',
    ['report', 'shelf', 'pots', '--glaze'],
    '--glaze needs a value after it.',
  ],
  [
    'two ways to print at once',
    ['report', 'shelf', 'pots', '--json', '--csv'],
    'It is either --json or --csv.',
  ],
  [
    'a mapping that is none',
    ['import', 'notebook', 'x.csv', '--map', 'glazes'],
    'No plugin here imports notebook',
  ],
  ['orders, which no plugin imports yet', ['import', 'orders', 'x.csv'], 'No plugin here imports orders'],
  [
    'readings, which no plugin imports yet',
    ['import', 'readings', 'x.csv', '--firing', '17'],
    'No plugin here imports readings',
  ],
  [
    'a template, which no plugin makes yet',
    ['template', 'spec.json', '--paper', 'A4', '--to', 'x.pdf'],
    'No plugin here makes templates.',
  ],
  ['a port that is none', ['serve'], 'PORT must be a number up to 65535, not 99999.'],
  ['a new thing that is no plugin', ['new', 'kiln', 'x'], 'It is: wareboard new plugin NAME'],
])('%s', (_what, typed, sentence) => {
  test('is told on the error channel, with exit code 2, and opens nothing', async () => {
    const { type, opened } = atTheDesk({ env: { PORT: '99999' } });
    const { code, out, err } = await type(...typed);
    expect(err).toContain(sentence);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(opened).toEqual([]);
  });
});
