/**
 * The calendar: GET /calendar/SECRET.ics is the feed, which any calendar program reads without signing in;
 * /api/calendar tells, changes and shuts its address.
 */
import { createRoute, type OpenAPIHono, z } from '@hono/zod-openapi';
import type { Schema } from 'hono';
import { calendarSecret, closeCalendar, newCalendarSecret, opensCalendar } from '../../calendar/address.ts';
import { feedOf } from '../../calendar/feed.ts';
import type { FromWhom } from '../middleware/from-whom.ts';
import { ProblemError } from '../problems.ts';
import { gather } from '../tellings.ts';
import { json, problemsOf, type Services } from './route.ts';

const addressShape = z.object({
  path: z
    .string()
    .nullable()
    .openapi({ description: 'Path of the feed at this address; null: there is none' }),
});
const writing = ['bad-json', 'bad-input', 'no-origin', 'too-large', 'wrong-media-type'] as const;
const nothing = {
  body: { required: true, content: { 'application/json': { schema: z.strictObject({}) } } },
} as const;

const told = createRoute({
  method: 'get',
  path: '/api/calendar',
  summary: 'The secret address of the calendar feed',
  responses: { 200: json(addressShape, 'The address'), ...problemsOf() },
});
const renewed = createRoute({
  method: 'post',
  path: '/api/calendar/new-address',
  summary: 'Make a new address; the one before is shut',
  request: nothing,
  responses: { 200: json(addressShape, 'The new address'), ...problemsOf(...writing) },
});
const shut = createRoute({
  method: 'post',
  path: '/api/calendar/shut',
  summary: 'Shut the feed',
  request: nothing,
  responses: { 200: json(addressShape, 'There is none'), ...problemsOf(...writing) },
});
const feed = createRoute({
  method: 'get',
  path: '/calendar/{file}',
  summary: 'The calendar feed (RFC 5545)',
  request: { params: z.object({ file: z.string().max(120) }) },
  responses: {
    200: { description: 'The feed', content: { 'text/calendar': { schema: z.string() } } },
    ...problemsOf('not-found'),
  },
});

const pathOf = (secret: string | undefined) => ({
  path: secret === undefined ? null : `/calendar/${secret}.ics`,
});

export function calendar<Before extends Schema>(
  app: OpenAPIHono<FromWhom, Before>,
  { host, keeping }: Services,
) {
  return app
    .openapi(told, (c) => c.json(pathOf(calendarSecret(keeping.folder)), 200))
    .openapi(renewed, (c) => c.json(pathOf(newCalendarSecret(keeping.folder)), 200))
    .openapi(shut, (c) => {
      closeCalendar(keeping.folder);
      return c.json(pathOf(undefined), 200);
    })
    .openapi(feed, async (c) => {
      const { file } = c.req.valid('param');
      if (!file.endsWith('.ics') || !opensCalendar(keeping.folder, file.slice(0, -'.ics'.length)))
        throw new ProblemError('not-found');
      const { studio, zone } = await host.settings();
      const { told: rows } = await gather(host, 'dates');
      const address = new URL(c.req.url).origin;
      c.header('content-type', 'text/calendar; charset=utf-8');
      c.header('content-disposition', 'inline; filename="wareboard.ics"');
      c.header('cache-control', 'private, no-cache');
      return c.body(feedOf({ studio, zone, address, now: new Date(), told: rows }), 200) as never;
    });
}
