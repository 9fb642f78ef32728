/** GET /api/papers/PLUGIN/PAPER: a paper as a PDF. */
import { createRoute, type OpenAPIHono, z } from '@hono/zod-openapi';
import type { Context, Schema } from 'hono';
import type { FromWhom } from '../middleware/from-whom.ts';
import type { Problem } from '../problems.ts';
import { joined, problemsOf, type Services } from './route.ts';

const route = createRoute({
  method: 'get',
  path: '/api/papers/{plugin}/{paper}',
  summary: 'A paper, as a PDF of true size',
  description:
    'Further query parameters are the input of the paper (GET /api/plugins tells them); `as-at` and `known-at` as for ' +
    'a report. With `save` it is sent to be kept as a file, and not shown.',
  request: {
    params: z.object({ plugin: z.string(), paper: z.string() }),
    query: z.object({
      save: z.enum(['yes']).optional(),
      'as-at': z.string().optional().openapi({ format: 'date' }),
      'known-at': z.string().optional().openapi({ format: 'date' }),
    }),
  },
  responses: {
    200: {
      description: 'The paper',
      content: { 'application/pdf': { schema: z.string().openapi({ format: 'binary' }) } },
    },
    ...problemsOf('bad-input', 'unknown-paper', 'not-printable', 'paper-failed'),
  },
});

export function papers<Before extends Schema>(app: OpenAPIHono<FromWhom, Before>, { host }: Services) {
  return app.openapi(route, async (c) => {
    const { plugin, paper } = c.req.valid('param');
    const { save, ...params } = joined(c.req.queries());
    const { name, pdf } = await host.paper(plugin, paper, params);
    c.header('content-type', 'application/pdf');
    c.header(
      'content-disposition',
      `${save ? 'attachment' : 'inline'}; filename*=UTF-8''${encodeURIComponent(name)}`,
    );
    return c.body(pdf as Uint8Array<ArrayBuffer>, 200) as never;
  });
}

/** A paper opened from a link has no page around it that could show a problem: its sentence alone is sent. */
export async function problemAsWords(c: Context, told: Response): Promise<Response> {
  const asked = c.req.path.startsWith('/api/papers/') && c.req.header('accept')?.startsWith('text/html');
  if (!asked) return told;
  const { detail } = (await told.json()) as Problem;
  return new Response(`${detail}\n`, {
    status: told.status,
    headers: { 'content-type': 'text/plain; charset=utf-8' },
  });
}
