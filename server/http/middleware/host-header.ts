/**
 * Answers only to the names that the server goes by. A page of another site that
 * makes its own name point at 127.0.0.1 (DNS rebinding) still sends that name in
 * the Host header, and is turned away here before anything is read.
 */
import type { MiddlewareHandler } from 'hono';
import { problemResponse } from '../problems.ts';

const NAMES = ['localhost', '127.0.0.1', '[::1]'] as const;

/** @param port the port the server listens on; it is known only once it listens */
export function hostHeader(port: () => number): MiddlewareHandler {
  return async (c, next) => {
    const host = (c.req.header('host') ?? new URL(c.req.url).host).toLowerCase();
    if (!allowed(host, port())) return problemResponse('wrong-host');
    return next();
  };
}

/** Port 80 is left out of the header by browsers. */
function allowed(host: string, port: number): boolean {
  return NAMES.some((name) => host === `${name}:${port}` || (port === 80 && host === name));
}
