/** GET /api/problems/CODE: what the `type` of a problem document points at. */
import { createRoute, type OpenAPIHono, z } from '@hono/zod-openapi';
import type { Schema } from 'hono';
import type { FromWhom } from '../middleware/from-whom.ts';
import { PROBLEMS, type ProblemCode, ProblemError } from '../problems.ts';
import { json, problemsOf } from './route.ts';

const route = createRoute({
  method: 'get',
  path: '/api/problems/{code}',
  summary: 'What a problem means',
  request: { params: z.object({ code: z.string() }) },
  responses: {
    200: json(
      z.object({ code: z.string(), status: z.number().int(), title: z.string(), sentence: z.string() }),
      'The problem',
    ),
    ...problemsOf('not-found'),
  },
});

export function problems<Before extends Schema>(app: OpenAPIHono<FromWhom, Before>) {
  return app.openapi(route, (c) => {
    const { code } = c.req.valid('param');
    if (!Object.hasOwn(PROBLEMS, code)) throw new ProblemError('not-found');
    return c.json({ code, ...PROBLEMS[code as ProblemCode] }, 200);
  });
}
