/** GET /api/waiting: what waits for the potter, from every plugin that has something. */
import { createRoute, type OpenAPIHono, z } from '@hono/zod-openapi';
import type { Schema } from 'hono';
import { failing } from '../../timed/failing.ts';
import type { FromWhom } from '../middleware/from-whom.ts';
import { gather } from '../tellings.ts';
import { json, problemsOf, type Services } from './route.ts';

const anything = z.record(z.string(), z.unknown());

const route = createRoute({
  method: 'get',
  path: '/api/waiting',
  summary: 'What waits for the potter',
  description: 'The rows of every report that says of itself that it tells what waits.',
  responses: {
    200: json(
      z.object({
        told: z
          .array(
            z.object({ plugin: z.string(), rows: z.array(anything).readonly(), more: anything.optional() }),
          )
          .readonly(),
        failed: z.array(z.object({ plugin: z.string(), sentence: z.string() })).readonly(),
      }),
      'What waits, by plugin, and the plugins that could not be asked',
    ),
    ...problemsOf(),
  },
});

export function waiting<Before extends Schema>(
  app: OpenAPIHono<FromWhom, Before>,
  { host, keeping }: Services,
) {
  return app.openapi(route, async (c) => {
    const { told, failed } = await gather(host, 'waiting');
    const own = keeping.timed ? failing(keeping.timed) : [];
    return c.json({ told: own.length > 0 ? [...told, { plugin: 'timed', rows: own }] : told, failed }, 200);
  });
}
