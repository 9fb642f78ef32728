/** Listens on this machine, and on the workshop's network where that was asked for. */
import { randomUUID } from 'node:crypto';
import type { AddressInfo } from 'node:net';
import { createAdaptorServer } from '@hono/node-server';
import { type AppOptions, buildApp } from './app.ts';
import { Jobs } from './jobs.ts';
import { type NetworkPorts, type ServingNetwork, serveNetwork } from './serve-network.ts';
import { stop } from './stop.ts';

export interface Serving {
  /** 'http://127.0.0.1:4280' */
  readonly address: string;
  /** Lets the network in; needs `keeping.network`. @throws Error with code EADDRINUSE when a port is taken */
  openNetwork(wanted: NetworkPorts): Promise<ServingNetwork>;
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
  let network: ServingNetwork | undefined;
  return {
    address: `http://${ONLY_HERE}:${port}`,
    async openNetwork(ports) {
      const { network: kept } = options.keeping;
      if (kept === undefined) throw new Error('The network is not served without a passphrase.');
      network = await serveNetwork({ ...options, jobs }, kept, ports);
      return network;
    },
    close: async () => {
      await Promise.all([stop(server, jobs.idle()), network?.close()]);
    },
  };
}
