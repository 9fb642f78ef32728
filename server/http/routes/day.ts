/** What a device keeps so that work goes on without the network: GET /api/day says what, GET /api/streams gives it. */
import { createRoute, type OpenAPIHono, z } from '@hono/zod-openapi';
import type { Schema } from 'hono';
import { streamKey, streamPrefix } from '../../contract/streams.ts';
import type { FromWhom } from '../middleware/from-whom.ts';
import { entryShape, headShape } from '../shapes.ts';
import { json, problemsOf, type Services } from './route.ts';

const dayRoute = createRoute({
  method: 'get',
  path: '/api/day',
  summary: 'What a device keeps for the day',
  description:
    'Names of the streams that the day’s work needs, the names of the people among them, and how the log stood ' +
    'before they were looked up: whatever is recorded after that is to be asked for anew.',
  responses: {
    200: json(
      z.object({
        head: headShape,
        zone: z.string(),
        streams: z.array(z.string()).readonly(),
        names: z
          .record(z.string(), z.string().nullable())
          .openapi({ description: 'By person; null: erased' }),
        failed: z.array(z.string()).readonly().openapi({ description: 'Plugins that could not say theirs' }),
      }),
      'What to keep',
    ),
    ...problemsOf('log-unavailable'),
  },
});

const MOST_STREAMS = 100;
const some = z.array(z.string().min(1).max(200)).min(1).max(MOST_STREAMS);

const streamsRoute = createRoute({
  method: 'get',
  path: '/api/streams',
  summary: 'The entries of some streams',
  request: {
    query: z.object({
      stream: z
        .union([z.string().min(1).max(200), some])
        .openapi({ description: `Given once for each stream, ${MOST_STREAMS} at most` }),
    }),
  },
  responses: {
    200: json(
      z.object({ entries: z.array(entryShape).openapi({ description: 'Each once, in log order' }) }),
      'The entries; an unknown stream has none',
    ),
    ...problemsOf('bad-input', 'log-unavailable'),
  },
});

export function day<Before extends Schema>(app: OpenAPIHono<FromWhom, Before>, { host }: Services) {
  return app
    .openapi(dayRoute, async (c) => {
      const head = await host.log.head();
      const { streams, failed } = await host.day();
      const people = streams.filter((stream) => streamPrefix(stream) === 'person').map(streamKey);
      const names = people.length > 0 ? Object.fromEntries(await host.people.names(people)) : {};
      const { zone } = await host.settings();
      return c.json({ head, zone, streams, names, failed }, 200);
    })
    .openapi(streamsRoute, async (c) => {
      const { stream } = c.req.valid('query');
      const found = await host.log.streams(typeof stream === 'string' ? [stream] : stream);
      const entries = new Map([...found.values()].flatMap((it) => it.entries).map((it) => [it.seq, it]));
      return c.json({ entries: [...entries.values()].sort((a, b) => a.seq - b.seq) }, 200);
    });
}
