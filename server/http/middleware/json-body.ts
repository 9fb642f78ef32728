/**
 * A body must be JSON, and no larger than the limit, before any of it is parsed.
 * For every route but the import, which is streamed and has a limit of its own.
 */
import type { MiddlewareHandler } from 'hono';
import { bodyLimit } from 'hono/body-limit';
import { problemResponse } from '../problems.ts';
import { mediaType } from './same-origin.ts';

const MEGABYTE = 1024 * 1024;

/** @param limit largest body in bytes */
export function jsonBody(limit = MEGABYTE): MiddlewareHandler {
  const tooLarge = `The body is larger than ${(limit / MEGABYTE).toLocaleString('en-GB')} MB, the most that is taken here; send it in parts.`;
  const limited = bodyLimit({
    maxSize: limit,
    onError: () => problemResponse('too-large', { detail: tooLarge }),
  });
  return async (c, next) => {
    if (c.req.method === 'GET' || c.req.method === 'HEAD') return next();
    if (mediaType(c.req.header('content-type')) !== 'application/json') {
      return problemResponse('wrong-media-type', { detail: 'The body must be sent as application/json.' });
    }
    return limited(c, next);
  };
}
