/** GET /api/health: whether the log answers, and how the read models stand. */
import { createRoute, type OpenAPIHono, z } from '@hono/zod-openapi';
import type { Schema } from 'hono';
import type { FromWhom } from '../middleware/from-whom.ts';
import { headShape } from '../shapes.ts';
import { json, problemsOf, type Services } from './route.ts';

const route = createRoute({
  method: 'get',
  path: '/api/health',
  summary: 'Whether Wareboard is well',
  responses: {
    200: json(
      z.object({
        ok: z.boolean().openapi({ description: 'The log answers. A plugin that failed delays only itself.' }),
        version: z.string(),
        instance: z.string().openapi({ description: 'Another one each time the server is started' }),
        head: headShape,
        readModels: z
          .array(
            z.object({ plugin: z.string(), checkpoint: z.number().int(), failed: z.string().optional() }),
          )
          .readonly(),
      }),
      'It is',
    ),
    ...problemsOf('log-unavailable'),
  },
});

export function health<Before extends Schema>(
  app: OpenAPIHono<FromWhom, Before>,
  { host, keeping }: Services,
) {
  return app.openapi(route, async (c) => {
    const { instance, version } = keeping;
    const head = await host.log.head();
    return c.json({ ok: true, version, instance, head, readModels: await host.standing() }, 200);
  });
}
