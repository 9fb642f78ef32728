/**
 * /fetch: what a buyer opens. GET shows a page with a button and records nothing, so that a mail program's look
 * ahead or a HEAD uses nothing up; POST hands the PDF out and counts. Nobody signs in: the address is the key.
 */
import { createRoute, type OpenAPIHono, z } from '@hono/zod-openapi';
import type { Context, Schema } from 'hono';
import { AskRefused } from '../../contract/plugin.ts';
import { handOut, lookAt, Shut } from '../../handouts/hand-out.ts';
import { linkKey } from '../../handouts/key.ts';
import { FETCH, isSigned, type Link } from '../../handouts/link.ts';
import { fetchPage, LOOK, shutPage } from '../../handouts/page.ts';
import { words } from '../../handouts/words.ts';
import { newId } from '../../host/ids.ts';
import { PLAIN_LOOK } from '../../network/plain-look.ts';
import type { FromWhom } from '../middleware/from-whom.ts';
import { problemsOf, type Services } from './route.ts';

const part = z.string().max(200);
const params = z.object({
  plugin: part,
  handout: part,
  key: part,
  until: part,
  most: part,
  signature: part,
});
const path = `${FETCH}/{plugin}/{handout}/{key}/{until}/{most}/{signature}`;
const page = { description: 'A page in plain words', content: { 'text/html': { schema: z.string() } } };
const shut = { 403: page, 410: page, 503: page };

const look = createRoute({
  method: 'get',
  path: LOOK,
  summary: 'The look of the pages under /fetch',
  responses: {
    200: { description: 'CSS', content: { 'text/css': { schema: z.string() } } },
    ...problemsOf(),
  },
});
const shown = createRoute({
  method: 'get',
  path,
  summary: 'What a signed link leads to; nothing is counted',
  request: { params },
  responses: { 200: page, ...problemsOf(), ...shut },
});
const fetched = createRoute({
  method: 'post',
  path,
  summary: 'Fetch what a signed link leads to; this counts',
  request: {
    params,
    body: {
      content: {
        'application/x-www-form-urlencoded': {
          schema: z.object({ paper: z.string().max(40).optional() }),
        },
      },
    },
  },
  responses: {
    200: {
      description: 'The PDF',
      content: { 'application/pdf': { schema: z.string().openapi({ format: 'binary' }) } },
    },
    ...problemsOf('too-large'),
    ...shut,
  },
});

export function fetching<Before extends Schema>(
  app: OpenAPIHono<FromWhom, Before>,
  { host, keeping }: Services,
  report: (error: Error) => void,
) {
  const now = keeping.clock ?? (() => new Date());
  const signed = (brought: Link & { readonly signature: string }): Link => {
    const { signature, ...link } = brought;
    // Without a key no link was ever made: one for this once shuts as long as any other would.
    const key = linkKey(keeping.folder) ?? newId(now());
    if (!isSigned(key, link, signature)) throw new Shut(words.forged, 403);
    return link;
  };
  const answered = async (c: Context, work: () => Promise<Response>): Promise<Response> => {
    c.header('cache-control', 'no-store');
    c.header('x-robots-tag', 'noindex');
    try {
      return await work();
    } catch (error) {
      const { studio } = await host.settings();
      if (error instanceof Shut) return c.html(shutPage(studio, error.message), error.status);
      report(error as Error);
      const sentence = error instanceof AskRefused ? `${error.message} ${words.notCounted}` : words.notMade;
      return c.html(shutPage(studio, sentence), 503);
    }
  };
  return app
    .openapi(look, (c) => c.body(PLAIN_LOOK, 200, { 'content-type': 'text/css; charset=utf-8' }) as never)
    .openapi(
      shown,
      (c) =>
        answered(c, async () => {
          const open = await lookAt(host, signed(c.req.valid('param')));
          const { studio } = await host.settings();
          return c.html(fetchPage(studio, c.req.path, open));
        }) as never,
    )
    .openapi(
      fetched,
      (c) =>
        answered(c, async () => {
          const link = signed(c.req.valid('param'));
          const { paper } = c.req.valid('form');
          const { name, pdf } = await handOut(host, link, paper, now());
          c.header('content-type', 'application/pdf');
          c.header('content-disposition', `attachment; filename*=UTF-8''${encodeURIComponent(name)}`);
          return c.body(pdf as Uint8Array<ArrayBuffer>, 200);
        }) as never,
    );
}
