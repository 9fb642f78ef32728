/** docs/reference/problems.md, made from the table of problems. */
import { PROBLEMS } from './problems.ts';

export function problemsPage(): string {
  const rows = Object.entries(PROBLEMS)
    .sort(([a, one], [b, other]) => one.status - other.status || (a < b ? -1 : 1))
    .map(([code, { status, title, sentence }]) => `| ${status} | \`${code}\` | ${title} | ${sentence} |`);
  return [
    '# Problems',
    '',
    'Every request that fails is answered with a problem document (RFC 9457, `application/problem+json`):',
    '`type`, `title`, `status`, `detail` (a sentence for the user), `code`, and where it applies `field`.',
    'A refusal has the status 422, the code and the sentence of the plugin that refused, and `others`, the',
    'entries that stand in the way. This page is made from `server/http/problems.ts`; do not edit it.',
    '',
    '| status | code | title | sentence |',
    '|---|---|---|---|',
    ...rows,
    '',
  ].join('\n');
}
