/** /api/handouts: the maker's side of what may be fetched: addresses, the PDF itself, and how the world reaches this server. */
import { createRoute, type OpenAPIHono, z } from '@hono/zod-openapi';
import type { Schema } from 'hono';
import { pdfOf, sizesOf } from '../../handouts/hand-out.ts';
import {
  asOutsideAddress,
  linkKey,
  newLinkKey,
  outsideAddress,
  setOutsideAddress,
} from '../../handouts/key.ts';
import { signedPath } from '../../handouts/link.ts';
import type { FromWhom } from '../middleware/from-whom.ts';
import { ProblemError } from '../problems.ts';
import { json, problemsOf, type Services } from './route.ts';

const writing = ['bad-json', 'bad-input', 'no-origin', 'too-large', 'wrong-media-type'] as const;
const jsonBody = <Shape extends z.ZodType>(schema: Shape) => ({
  body: { required: true, content: { 'application/json': { schema } } },
});

const reachShape = z.object({
  outside: z.string().nullable().openapi({
    description: 'Where the world reaches this server, as its owner says; null: it does not',
    example: 'https://files.example',
  }),
  network: z.array(z.string()).openapi({ description: 'Where the workshop’s own network reaches it' }),
});
const linkShape = z.object({
  path: z.string().openapi({ description: 'Path of the signed address' }),
  sizes: z.array(z.string()).openapi({ description: 'Sheets it can be drawn on, the usual first' }),
});
const params = z.object({ plugin: z.string(), handout: z.string(), key: z.string().max(200) });

const reach = createRoute({
  method: 'get',
  path: '/api/handouts',
  summary: 'From where links can be opened',
  responses: { 200: json(reachShape, 'The addresses'), ...problemsOf() },
});
const moved = createRoute({
  method: 'post',
  path: '/api/handouts/address',
  summary: 'Say under which address the world reaches this server; null: under none',
  request: jsonBody(z.strictObject({ address: z.string().max(300).nullable() })),
  responses: { 200: json(reachShape, 'The addresses'), ...problemsOf(...writing) },
});
const renewed = createRoute({
  method: 'post',
  path: '/api/handouts/new-key',
  summary: 'Shut all links that were made so far',
  request: jsonBody(z.strictObject({})),
  responses: { 200: json(z.object({ shut: z.literal(true) }), 'They are shut'), ...problemsOf(...writing) },
});
const papers = createRoute({
  method: 'get',
  path: '/api/handouts/papers',
  summary: 'Papers that can be named to be handed out',
  responses: {
    200: json(
      z.object({
        papers: z.array(
          z.object({
            plugin: z.string(),
            paper: z.string(),
            input: z.record(z.string(), z.string()),
            title: z.string(),
            to: z.string().openapi({ description: 'Path of its page' }),
            sizes: z.array(z.string()).readonly(),
          }),
        ),
      }),
      'All of every plugin',
    ),
    ...problemsOf(),
  },
});
const link = createRoute({
  method: 'get',
  path: '/api/handouts/{plugin}/{handout}/{key}',
  summary: 'The signed address of something that may be fetched',
  request: { params },
  responses: { 200: json(linkShape, 'The address'), ...problemsOf('no-handout') },
});
const file = createRoute({
  method: 'get',
  path: '/api/handouts/{plugin}/{handout}/{key}/file',
  summary: 'The PDF as it is handed out, to look at or to attach to a message; nothing is counted',
  request: { params, query: z.object({ paper: z.string().max(40).optional() }) },
  responses: {
    200: {
      description: 'The PDF',
      content: { 'application/pdf': { schema: z.string().openapi({ format: 'binary' }) } },
    },
    ...problemsOf('bad-input', 'no-handout', 'not-printable', 'paper-failed'),
  },
});

export function handouts<Before extends Schema>(
  app: OpenAPIHono<FromWhom, Before>,
  { host, keeping }: Services,
) {
  const { folder } = keeping;
  const standing = () => ({
    outside: outsideAddress(folder) ?? null,
    network: [...(keeping.network?.standing().addresses ?? [])],
  });
  const found = async (plugin: string, handout: string, key: string) => {
    const now = await host.handout(plugin, handout, key);
    if (now.standing === undefined) throw new ProblemError('no-handout');
    return { standing: now.standing, today: now.today };
  };
  return app
    .openapi(reach, (c) => c.json(standing(), 200))
    .openapi(moved, (c) => {
      const { address } = c.req.valid('json');
      const outside = address === null ? undefined : asOutsideAddress(address);
      if (address !== null && outside === undefined)
        throw new ProblemError('bad-input', {
          field: 'address',
          detail:
            'An address begins with https:// and is a name, with nothing behind it, such as https://files.example.',
        });
      setOutsideAddress(folder, outside);
      return c.json(standing(), 200);
    })
    .openapi(renewed, (c) => {
      newLinkKey(folder);
      return c.json({ shut: true as const }, 200);
    })
    .openapi(papers, async (c) => c.json({ papers: [...(await host.givenPapers())] }, 200))
    .openapi(link, async (c) => {
      const { plugin, handout, key } = c.req.valid('param');
      const now = await found(plugin, handout, key);
      const { until, most } = now.standing;
      const signing = linkKey(folder) ?? newLinkKey(folder);
      const path = signedPath(signing, { plugin, handout, key, until, most: String(most) });
      return c.json({ path, sizes: [...sizesOf(host, now.standing)] }, 200);
    })
    .openapi(file, async (c) => {
      const { plugin, handout, key } = c.req.valid('param');
      const { paper } = c.req.valid('query');
      const now = await found(plugin, handout, key);
      const sizes = sizesOf(host, now.standing);
      if (paper !== undefined && !sizes.includes(paper))
        throw new ProblemError('bad-input', {
          field: 'paper',
          detail: `“${paper}” is no paper that it can be drawn on: ${sizes.join(', ') || 'there is no choice'}.`,
        });
      const { name, pdf } = await pdfOf(host, now.standing, now.today, paper);
      c.header('content-type', 'application/pdf');
      c.header('content-disposition', `attachment; filename*=UTF-8''${encodeURIComponent(name)}`);
      return c.body(pdf as Uint8Array<ArrayBuffer>, 200) as never;
    });
}
