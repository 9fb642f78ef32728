/**
 * Lets only Wareboard's own page, and programs that are no browser, use /api.
 *
 * 1. A browser says in Sec-Fetch-Site where a request comes from: anything but
 *    `same-origin` is turned away, save a reading address typed by the user (`none`).
 * 2. A write with an Origin must have the origin it is sent to.
 * 3. A write with neither is no present-day browser, or a very old one. It is let
 *    through only with a body of a type that a browser may not send to another site
 *    without asking first (the Fetch standard's safelist has none of those below),
 *    and since that question is never granted, no page gets that far.
 */
import type { MiddlewareHandler } from 'hono';
import { problemResponse } from '../problems.ts';

const READS = new Set(['GET', 'HEAD']);
const ASKED_FOR_FIRST = new Set([
  'application/json',
  'application/pdf',
  'text/csv',
  'image/jpeg',
  'image/png',
  'image/webp',
]);

/** @param scheme how the page is served */
export function sameOrigin(scheme: 'http' | 'https'): MiddlewareHandler {
  return async (c, next) => {
    const reading = READS.has(c.req.method);
    const site = c.req.header('sec-fetch-site');
    if (site !== undefined && site !== 'same-origin' && !(reading && site === 'none'))
      return problemResponse('cross-site');
    if (reading) return next();
    const origin = c.req.header('origin');
    if (origin !== undefined) {
      const here = c.req.header('host') ?? new URL(c.req.url).host;
      return origin === `${scheme}://${here}` ? next() : problemResponse('cross-site');
    }
    if (site === undefined && !ASKED_FOR_FIRST.has(mediaType(c.req.header('content-type')))) {
      return problemResponse('no-origin');
    }
    return next();
  };
}

/** 'text/csv' of 'text/csv; charset=utf-8'. */
export function mediaType(header: string | undefined): string {
  return (header ?? '').split(';')[0]!.trim().toLowerCase();
}
