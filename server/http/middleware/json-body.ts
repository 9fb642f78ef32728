/**
 * A body must be JSON, and no larger than the limit, before any of it is parsed.
 * For every route but the import, which is streamed and has a limit of its own, and pictures.
 */
import type { MiddlewareHandler } from 'hono';
import { bodyLimit } from 'hono/body-limit';
import { problemResponse } from '../problems.ts';
import { mediaType } from './same-origin.ts';

const MEGABYTE = 1024 * 1024;

/** @param limit largest body in bytes */
export function jsonBody(limit = MEGABYTE): MiddlewareHandler {
  const limited = upTo(limit, '; send it in parts');
  return async (c, next) => {
    if (c.req.method === 'GET' || c.req.method === 'HEAD') return next();
    if (mediaType(c.req.header('content-type')) !== 'application/json') {
      return problemResponse('wrong-media-type', { detail: 'The body must be sent as application/json.' });
    }
    return limited(c, next);
  };
}

/** A body of any kind, no larger than the limit in bytes. */
export function upTo(limit: number, instead = ''): MiddlewareHandler {
  const detail = `The body is larger than ${(limit / MEGABYTE).toLocaleString('en-GB')} MB, the most that is taken here${instead}.`;
  return bodyLimit({ maxSize: limit, onError: () => problemResponse('too-large', { detail }) });
}
