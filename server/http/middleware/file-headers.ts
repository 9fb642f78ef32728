/** A picture is a picture: opened by itself, it may run nothing, fetch nothing and be nobody's page. */
import type { MiddlewareHandler } from 'hono';

export function fileHeaders(): MiddlewareHandler {
  return async (c, next) => {
    await next();
    c.header('content-security-policy', "default-src 'none'; sandbox");
    c.header('x-content-type-options', 'nosniff');
  };
}
