/** Ends a server: nobody new is let in, who is being answered may end, and who only listens is cut off. */
import type { ServerType } from '@hono/node-server';

/** Milliseconds in which requests that are being answered may end. */
const GRACE = 500;

/** @param work that is to be done before anybody is cut off */
export async function stop(server: ServerType, work: Promise<void> = Promise.resolve()): Promise<void> {
  const closed = new Promise((resolve) => server.close(resolve));
  if ('closeIdleConnections' in server) server.closeIdleConnections();
  await work;
  const cut = setTimeout(() => 'closeAllConnections' in server && server.closeAllConnections(), GRACE);
  await closed;
  clearTimeout(cut);
}
