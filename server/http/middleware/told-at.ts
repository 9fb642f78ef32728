/** How much of the log an answer knows of: all that was there when it was asked for, perhaps more. */
import type { MiddlewareHandler } from 'hono';
import type { Host } from '../../host/host.ts';

export const ENTRIES = 'x-wareboard-entries';

export function toldAt(host: Pick<Host, 'log'>): MiddlewareHandler {
  return async (c, next) => {
    if (c.req.method !== 'GET') return next();
    const { count } = await host.log.head();
    await next();
    c.header(ENTRIES, String(count));
  };
}
