/** The files of a new plugin: small, but it works, and its test passes. */

export interface NewPlugin {
  /** Kebab-case. */
  readonly id: string;
  /** Path from the plugin's folder to server/contract, as it is written in an import. */
  readonly contract: string;
}

/** Content by file name. */
export function newPluginFiles(plugin: NewPlugin): Record<string, string> {
  return {
    'README.md': readme(plugin),
    'index.ts': index(plugin),
    'projections.ts': projections(plugin),
    'reports.ts': reports(plugin),
    [`${plugin.id}.test.ts`]: test(plugin),
  };
}

const readme = ({ id }: NewPlugin) => `# ${id}

Counts the pieces begun in each month. Change this sentence, and the code, to what you want to know.

| what | name | where |
|---|---|---|
| projection | \`begun\`: one row for each piece or lot, with the day it was begun | projections.ts |
| report | \`by-month\`: month, pieces; \`from\` and \`to\` bound the days | reports.ts |

It adds no events and no commands. To record something of its own it would declare \`prefixes\`, \`events\`, \`streams\` and
\`commands\` (server/contract/plugin.ts says what each is), each in a file of its own.

- Try it: \`wareboard serve --plugins\` with the folder that holds this one, then \`wareboard report ${id} by-month --plugins …\`.
- Test it: \`npx vitest run --root\` with this folder.
- When \`rows\` or a table changes, raise \`version\` in projections.ts: the read model is then built again.
`;

const index = ({ id, contract }: NewPlugin) => `/** Pieces begun, by month. */
import { CONTRACT, definePlugin } from '${contract}/plugin.ts';
import { begun } from './projections.ts';
import { byMonth } from './reports.ts';

export default definePlugin({
  id: '${id}',
  contract: CONTRACT,
  about: 'Pieces begun, by month.',
  needs: ['studio'],
  prefixes: [],
  projections: { begun },
  reports: { 'by-month': byMonth },
});
`;

const projections = ({
  contract,
}: NewPlugin) => `/** One row for each piece or lot: when it was begun, and of how many pieces. */
import { integer, text } from 'drizzle-orm/sqlite-core';
import { projection } from '${contract}/plugin.ts';
import type { Lot } from '${contract}/studio/state.ts';
import { facts } from '${contract}/tables.ts';

const begunTable = facts('begun', { piece: text('piece').notNull(), day: text('day').notNull(), pieces: integer('pieces').notNull() }, [['day']]);

export const begun = projection<Lot>({
  version: 1,
  of: 'piece',
  tables: { begun: begunTable },
  rows: (lot) => ({
    begun: lot.portions.map(({ piece, begunAt, count }) => ({ piece, day: begunAt.slice(0, 10), pieces: count })),
  }),
});
`;

const reports = ({ contract }: NewPlugin) => `/** How many pieces were begun in each month. */
import { z } from 'zod';
import { report } from '${contract}/plugin.ts';

const input = z.strictObject({ from: z.iso.date().optional(), to: z.iso.date().optional() });

export const byMonth = report({
  title: 'Pieces begun, by month',
  input,
  async run(ask, { from, to }) {
    const rows = await ask.query<{ month: string; pieces: number }>(
      'SELECT substr(day, 1, 7) AS month, sum(pieces) AS pieces FROM begun WHERE day >= ? AND day <= ? GROUP BY 1 ORDER BY 1',
      [from ?? '0000-01-01', to ?? '9999-12-31'],
    );
    const pieces = rows.reduce((sum, row) => sum + row.pieces, 0);
    return {
      from,
      to,
      sentence: \`\${pieces} \${pieces === 1 ? 'piece was' : 'pieces were'} begun.\`,
      rows,
      notes: [],
      figures: [
        {
          figure: 'table',
          title: 'Begun',
          columns: [
            { field: 'month', label: 'Month', kind: 'text' },
            { field: 'pieces', label: 'Pieces', kind: 'count' },
          ],
        },
      ],
    };
  },
});
`;

const test = ({ contract }: NewPlugin) => `import { expect, test } from 'vitest';
import type { Lot, Portion } from '${contract}/studio/state.ts';
import { begun } from './projections.ts';

const portion = (piece: string, count: number) => ({ piece, count, begunAt: '2026-05-01T10:15:00+01:00' }) as Portion;

test('a lot that was split counts with all its parts on the day it was begun', () => {
  const lot: Lot = { lot: 'lot-1', portions: [portion('lot-1', 9), portion('lot-1.a', 3)] };
  expect(begun.rows(lot, 'lot-1')).toEqual({
    begun: [
      { piece: 'lot-1', day: '2026-05-01', pieces: 9 },
      { piece: 'lot-1.a', day: '2026-05-01', pieces: 3 },
    ],
  });
});
`;
