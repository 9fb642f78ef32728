/**
 * Answers only to the names that the server goes by. A page of another site that
 * makes its own name point at this machine (DNS rebinding) still sends that name in
 * the Host header, and is turned away here before anything is read.
 */
import type { MiddlewareHandler } from 'hono';
import { FETCH } from '../../handouts/link.ts';
import { problemResponse } from '../problems.ts';

/** What this machine calls itself. */
export const HERE = ['localhost', '127.0.0.1', '[::1]'] as const;

export interface Address {
  readonly scheme: 'http' | 'https';
  /** Names it is asked by, as they stand in an address. */
  readonly names: () => readonly string[];
  /** The port it listens on; it is known only once it listens. */
  readonly port: () => number;
  /** Where the world reaches it, through whatever its owner put before it: for links, and nothing else. */
  readonly outside?: () => string | undefined;
}

export function hostHeader(address: Address): MiddlewareHandler {
  return async (c, next) => {
    const host = (c.req.header('host') ?? new URL(c.req.url).host).toLowerCase();
    if (allowed(host, address)) return next();
    if (c.req.path.startsWith(`${FETCH}/`) && isOutside(host, address)) return next();
    const names = address.names().map((name) => `${address.scheme}://${name}:${address.port()}`);
    return problemResponse('wrong-host', { detail: `Wareboard answers here only at ${names.join(', ')}.` });
  };
}

function isOutside(host: string, { outside }: Address): boolean {
  const known = outside?.();
  return known !== undefined && new URL(known).host === host;
}

/** Browsers leave the scheme's own port out of the header. */
function allowed(host: string, { scheme, names, port }: Address): boolean {
  const usual = port() === (scheme === 'http' ? 80 : 443);
  return names().some((name) => host === `${name}:${port()}` || (usual && host === name));
}
