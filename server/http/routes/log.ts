/** GET /api/log: the entries in order. */
import { createRoute, type OpenAPIHono, z } from '@hono/zod-openapi';
import type { Schema } from 'hono';
import type { FromWhom } from '../middleware/from-whom.ts';
import { entryShape, headShape } from '../shapes.ts';
import { json, problemsOf, type Services, whole } from './route.ts';

const MOST = 1_000;

const route = createRoute({
  method: 'get',
  path: '/api/log',
  summary: 'Entries of the log, in order',
  request: {
    query: z.object({
      after: whole(0, Number.MAX_SAFE_INTEGER)
        .optional()
        .openapi({ type: 'integer', description: 'Seq of the last entry already had; 0 when left out' }),
      limit: whole(1, MOST)
        .optional()
        .openapi({ type: 'integer', description: `At most ${MOST}; 200 when left out` }),
    }),
  },
  responses: {
    200: json(
      z.object({
        entries: z.array(entryShape),
        next: z
          .number()
          .int()
          .nullable()
          .openapi({ description: '`after` of the next page; null at the end' }),
        head: headShape,
      }),
      'A page of entries',
    ),
    ...problemsOf('bad-input'),
  },
});

export function log<Before extends Schema>(app: OpenAPIHono<FromWhom, Before>, { host }: Services) {
  return app.openapi(route, async (c) => {
    const { after = 0, limit = 200 } = c.req.valid('query');
    const [entries, head] = [await host.log.read(after, limit), await host.log.head()];
    const last = entries.at(-1)?.seq ?? after;
    return c.json({ entries, next: last < head.count ? last : null, head }, 200);
  });
}
