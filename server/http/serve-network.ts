/**
 * Listens on the workshop's network: the page over https, and the plain page that hands out the certificate. Both
 * turn away whoever does not come from a network of one's own, so that a router that lets the internet through
 * does not let it in here.
 */
import { createServer as plainServer, type Server } from 'node:http';
import { type Server as SecureServer, createServer as secureServer } from 'node:https';
import type { AddressInfo, Server as Listening, Socket } from 'node:net';
import { createAdaptorServer } from '@hono/node-server';
import type { Network } from '../network/network.ts';
import { isOwnNetwork } from '../network/places.ts';
import { trustPage } from '../network/trust-page.ts';
import { type AppOptions, buildApp } from './app.ts';
import { stop } from './stop.ts';

const EVERY_NUMBER = '0.0.0.0';
/** Milliseconds between looks whether the certificate or the machine's addresses have to be renewed. */
const LOOK = 15 * 60_000;

export interface NetworkPorts {
  readonly https: number;
  readonly trust: number;
}

export interface ServingNetwork extends NetworkPorts {
  /** Looks now; otherwise it does by itself every quarter of an hour. */
  renew(): Promise<void>;
  close(): Promise<void>;
}

/**
 * @param wanted ports; 0 takes any that is free
 * @throws Error with code EADDRINUSE when one is taken
 */
export async function serveNetwork(
  options: Omit<AppOptions, 'port' | 'networkNames'>,
  network: Network,
  wanted: NetworkPorts,
): Promise<ServingNetwork> {
  let port = wanted.https;
  let now = await network.certificates();
  const app = buildApp({ ...options, port: () => port, networkNames: () => now.names });
  const secure = createAdaptorServer({
    fetch: app.fetch,
    createServer: secureServer,
    serverOptions: { cert: now.leaf.certificate, key: now.leaf.key, minVersion: 'TLSv1.2' },
  }) as SecureServer;
  const plain = createAdaptorServer({
    fetch: trustPage({
      certificate: () => now.authority.certificate,
      fingerprint: () => now.fingerprint,
      addresses: () => network.standing().addresses,
      names: () => now.names,
    }).fetch,
    createServer: plainServer,
  }) as Server;
  port = await listen(secure, wanted.https);
  const trust = await listen(plain, wanted.trust).catch(async (error: unknown) => {
    await stop(secure);
    throw error;
  });
  network.opened({ https: port, trust });

  const renew = async () => {
    now = await network.certificates();
    secure.setSecureContext({ cert: now.leaf.certificate, key: now.leaf.key, minVersion: 'TLSv1.2' });
  };
  const report = options.report ?? console.error;
  const looking = setInterval(() => void renew().catch(report), LOOK);
  looking.unref();
  return {
    https: port,
    trust,
    renew,
    close: async () => {
      clearInterval(looking);
      network.closed();
      await Promise.all([stop(secure), stop(plain)]);
    },
  };
}

async function listen(server: Server | SecureServer, wanted: number): Promise<number> {
  onlyOwnNetwork(server);
  await new Promise<void>((listening, failed) => {
    server.once('error', failed);
    server.listen(wanted, EVERY_NUMBER, listening);
  });
  return (server.address() as AddressInfo).port;
}

/** Cuts off whoever comes from beyond a network of one's own, before a word is read of what it sends. */
export function onlyOwnNetwork<S extends Listening>(server: S): S {
  server.on('connection', (socket: Socket) => {
    if (!isOwnNetwork(socket.remoteAddress)) socket.destroy();
  });
  return server;
}
