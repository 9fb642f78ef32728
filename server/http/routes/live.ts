/** GET /api/log/live: says that the log has grown, as server-sent events. */
import { createRoute, type OpenAPIHono, z } from '@hono/zod-openapi';
import type { Schema } from 'hono';
import { streamSSE } from 'hono/streaming';
import type { Host } from '../../host/host.ts';
import type { FromWhom } from '../middleware/from-whom.ts';
import { problemsOf, type Services } from './route.ts';

const route = createRoute({
  method: 'get',
  path: '/api/log/live',
  summary: 'Says when the log has grown',
  description:
    'A stream of events; the id of each is the number of entries in the log, and so is `count` in its data. The ' +
    'first tells how the log stands, unless the header Last-Event-ID shows that it is known. Appends that come ' +
    'faster than they are read are told as one. A comment now and then keeps the connection open.',
  request: { headers: z.object({ 'last-event-id': z.string().optional() }) },
  responses: {
    200: { description: 'Events', content: { 'text/event-stream': { schema: z.string() } } },
    ...problemsOf(),
  },
});

/** Milliseconds between signs of life. */
export const HEARTBEAT = 20_000;

export function live<Before extends Schema>(
  app: OpenAPIHono<FromWhom, Before>,
  { host }: Services,
  heartbeat = HEARTBEAT,
) {
  return app.openapi(route, (c) => {
    const known = Number.parseInt(c.req.header('last-event-id') ?? '', 10);
    // Nobody reads the stream of a HEAD request, and so nobody would ever end it.
    if (c.req.method === 'HEAD') return c.body(null, 200, { 'content-type': 'text/event-stream' }) as never;
    return streamSSE(c, async (stream) => {
      const told = new Telling(Number.isNaN(known) ? -1 : known, (count) =>
        stream.writeSSE({ id: String(count), data: JSON.stringify({ count }) }),
      );
      const beat = setInterval(() => void stream.write(': still here\n\n'), heartbeat);
      await new Promise<void>((over) => {
        const stop = follow(host, told);
        stream.onAbort(() => {
          stop();
          over();
        });
      }).finally(() => clearInterval(beat));
    }) as never;
  });
}

function follow(host: Host, told: Telling): () => void {
  const stop = host.log.onAppended(({ count }) => told.hear(count));
  void host.log.head().then(({ count }) => told.hear(count));
  return stop;
}

/** Tells the newest count, one at a time: a slow reader misses steps, never the end. */
class Telling {
  private newest: number;
  private told: number;
  private telling = false;
  private readonly tell: (count: number) => Promise<void>;

  constructor(known: number, tell: (count: number) => Promise<void>) {
    this.newest = known;
    this.told = known;
    this.tell = tell;
  }

  hear(count: number): void {
    this.newest = Math.max(this.newest, count);
    if (!this.telling) void this.catchUp();
  }

  private async catchUp(): Promise<void> {
    this.telling = true;
    while (this.told < this.newest) {
      this.told = this.newest;
      await this.tell(this.told);
    }
    this.telling = false;
  }
}
