/** The list of firings. */
import { and, desc, eq, lt } from 'drizzle-orm';
import { z } from 'zod';
import { type Answered, type Ask, report } from '../../contract/plugin.ts';
import { FIRING_ROLES } from '../../contract/trade.ts';
import { firings } from '../tables.ts';
import { namesOf } from './names.ts';

const STATES = ['packed', 'lit', 'ended', 'drawn', 'abandoned'] as const;

const listInput = z.strictObject({
  state: z.enum(STATES).optional(),
  kiln: z.string().max(80).optional(),
  role: z.enum(FIRING_ROLES).optional(),
  after: z.coerce.number().int().min(0).optional(),
  limit: z.coerce.number().int().min(1).max(500).default(50),
});

async function list(ask: Ask, f: z.infer<typeof listInput>): Promise<Answered> {
  const where = and(
    f.state ? eq(firings.state, f.state) : undefined,
    f.kiln ? eq(firings.kiln, f.kiln) : undefined,
    f.role ? eq(firings.role, f.role) : undefined,
    f.after ? lt(firings.changedSeq, f.after) : undefined,
  );
  const found = await ask.db
    .select()
    .from(firings)
    .where(where)
    .orderBy(desc(firings.changedSeq))
    .limit(f.limit + 1);
  const names = await namesOf(ask);
  const page = found.slice(0, f.limit);
  const rows = page.map(({ stream: _, photos: __, ...row }) => ({
    ...row,
    kilnName: row.kiln ? (names.kiln.get(row.kiln) ?? row.kiln) : null,
    scheduleName: row.schedule ? (names.schedule.get(row.schedule) ?? row.schedule) : null,
    story: `/kilns/${encodeURIComponent(row.firing)}`,
  }));
  return {
    sentence:
      rows.length === 0 ? 'No firings here yet.' : `${rows.length} firing${rows.length === 1 ? '' : 's'}.`,
    rows,
    notes: [],
    figures: [
      {
        figure: 'table',
        title: 'Firings',
        columns: [
          { field: 'label', label: 'Firing', kind: 'text', behind: 'story' },
          { field: 'state', label: 'State', kind: 'code' },
          { field: 'kilnName', label: 'Kiln', kind: 'text' },
          { field: 'role', label: 'For', kind: 'code' },
          { field: 'scheduleName', label: 'Schedule', kind: 'text', wide: true },
          { field: 'pieces', label: 'Pieces', kind: 'count' },
        ],
      },
    ],
    ...(found.length > f.limit ? { more: { next: page.at(-1)!.changedSeq } } : {}),
  };
}

export const firingsReport = report({ title: 'Firings', unlisted: true, input: listInput, run: list });
