/**
 * Serves the page as it was built. Only files found in the folder when the server
 * started are served, by exact address, so no path is ever made from a request. The
 * page's own routes get index.html; a hashed file may be kept for a year.
 */
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { MiddlewareHandler } from 'hono';
import { getMimeType } from 'hono/utils/mime';

/** First parts of the addresses that the page draws itself. */
export const PAGE_ROUTES = [
  'ware',
  'kilns',
  'post',
  'review',
  'log',
  'materials',
  'templates',
  'people',
  'settings',
  'import',
  'unsent',
  'index',
  'find',
  'keys',
] as const;

/** What Today asks for first: the browser fetches it beside the scripts and not after them. */
const FIRST_ASKED = ['/api/waiting', '/api/reports/studio/materials']
  .map((path) => `<${path}>; rel=preload; as=fetch; crossorigin=anonymous`)
  .join(', ');

/** Name, hyphen or dot, eight or more characters of hash, ending: what vite makes. */
const HASHED = /[-.][A-Za-z0-9_-]{8,}\.[a-z0-9]+$/;

interface Served {
  readonly body: Uint8Array<ArrayBuffer>;
  readonly type: string;
  readonly kept: string;
}

/** @param folder the built page (dist/web) */
export function page(folder: string): MiddlewareHandler {
  const files = readAll(folder);
  const index = files.get('/index.html');
  return async (c, next) => {
    if (c.req.method !== 'GET' && c.req.method !== 'HEAD') return next();
    const { path } = c.req;
    const file = files.get(path) ?? (isPageRoute(path) ? index : undefined);
    if (file === undefined) return next();
    c.header('content-type', file.type);
    c.header('content-length', String(file.body.byteLength));
    c.header('cache-control', file.kept);
    if (path === '/') c.header('link', FIRST_ASKED);
    return c.req.method === 'HEAD' ? c.body(null) : c.body(file.body);
  };
}

function isPageRoute(path: string): boolean {
  return path === '/' || PAGE_ROUTES.some((route) => route === path.split('/')[1]);
}

function readAll(folder: string): Map<string, Served> {
  const files = new Map<string, Served>();
  for (const name of readdirSync(folder, { recursive: true, encoding: 'utf8' })) {
    const path = join(folder, name);
    if (!statSync(path).isFile() || name.endsWith('.map')) continue;
    const address = `/${name.replaceAll('\\', '/')}`;
    files.set(address, {
      body: new Uint8Array(readFileSync(path)),
      type: getMimeType(name) ?? 'application/octet-stream',
      kept:
        address.startsWith('/assets/') && HASHED.test(name)
          ? 'public, max-age=31536000, immutable'
          : 'no-cache',
    });
  }
  return files;
}
