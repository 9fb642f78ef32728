/** docs/reference/command-line.md, made from the verbs. */
import { VERBS } from './verbs.ts';

export function commandLinePage(): string {
  const rows = VERBS.map(({ usage, about }) => `| \`${usage.replaceAll('|', '\\|')}\` | ${about} |`);
  return [
    '# Command line',
    '',
    '`npm run -s wareboard -- VERB`. This page is made from `server/cli/verbs.ts`; do not edit it.',
    '',
    '| verb | what it does |',
    '|---|---|',
    ...rows,
    '',
    '| option or variable | meaning |',
    '|---|---|',
    '| `--data DIR`, `WAREBOARD_DATA` | the data folder; `./data` when neither is given |',
    '| `--plugins DIR` | plugins of others, a folder each, loaded after Wareboard’s own in the order of their names |',
    '| `PORT` | where `serve` and `demo` listen, on 127.0.0.1 only; 4280 when it is not set. `serve --network` takes the two ports after it the first time, and keeps them |',
    '| `WAREBOARD_LOG_URL` | a libsql server that keeps the log instead of the data folder |',
    '',
    'Exit code: 0 done, 1 refused or failed with the reason on the error channel, 2 wrong words. Long work draws a bar',
    'on a terminal and is quiet in a pipe. While a server has the data folder open, the other verbs work through it;',
    '`restore` wants it stopped.',
    '',
  ].join('\n');
}
