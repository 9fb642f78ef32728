/** Listens on this machine only. */
import { randomUUID } from 'node:crypto';
import type { AddressInfo } from 'node:net';
import { createAdaptorServer } from '@hono/node-server';
import { type AppOptions, buildApp } from './app.ts';
import { Jobs } from './jobs.ts';

export interface Serving {
  /** 'http://127.0.0.1:4280' */
  readonly address: string;
  /** Takes no more requests and ends when the work that runs is done; who only listens is cut off. */
  close(): Promise<void>;
}

/** By name: without one the adapter listens on every address of the machine. */
const ONLY_HERE = '127.0.0.1';

/**
 * @param wanted port; 0 takes any that is free
 * @throws Error with code EADDRINUSE when the port is taken
 */
export async function serve(options: Omit<AppOptions, 'port' | 'jobs'>, wanted: number): Promise<Serving> {
  let port = wanted;
  const jobs = new Jobs(randomUUID, options.report ?? console.error);
  const app = buildApp({ ...options, jobs, port: () => port });
  const server = createAdaptorServer({ fetch: app.fetch, hostname: ONLY_HERE });
  await new Promise<void>((listening, failed) => {
    server.once('error', failed);
    server.listen(wanted, ONLY_HERE, listening);
  });
  port = (server.address() as AddressInfo).port;
  return { address: `http://${ONLY_HERE}:${port}`, close: () => stop(server, jobs) };
}

/** Milliseconds in which requests that are being answered may end. */
const GRACE = 500;

async function stop(server: ReturnType<typeof createAdaptorServer>, jobs: Jobs): Promise<void> {
  const closed = new Promise((resolve) => server.close(resolve));
  if ('closeIdleConnections' in server) server.closeIdleConnections();
  await jobs.idle();
  const cut = setTimeout(() => 'closeAllConnections' in server && server.closeAllConnections(), GRACE);
  await closed;
  clearTimeout(cut);
}
