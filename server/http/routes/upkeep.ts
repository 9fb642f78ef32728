/** Work on the whole record: verify, rebuild, backup, forget. What the command line asks of a running server. */
import { createRoute, type OpenAPIHono, z } from '@hono/zod-openapi';
import type { Schema } from 'hono';
import { pluginsOf } from '../catalogue.ts';
import type { FromWhom } from '../middleware/from-whom.ts';
import { ProblemError } from '../problems.ts';
import { jobShape, outcomeShape } from '../shapes.ts';
import { refusalResponse } from './commands.ts';
import { json, problemsOf, type Services } from './route.ts';

const writing = ['bad-json', 'bad-input', 'no-origin', 'too-large', 'wrong-media-type'] as const;
const begun = { 202: json(jobShape, 'Begun; GET /api/jobs/{job} tells how it stands') };
const jsonBody = <Shape extends z.ZodType>(schema: Shape) => ({
  body: { required: true, content: { 'application/json': { schema } } },
});
const nothing = jsonBody(z.strictObject({}));

const verify = createRoute({
  method: 'post',
  path: '/api/admin/verify',
  summary: 'Walk the whole log and check every entry',
  request: nothing,
  responses: { ...begun, ...problemsOf(...writing) },
});

const rebuild = createRoute({
  method: 'post',
  path: '/api/admin/rebuild',
  summary: 'Throw read models away and build them again from the log',
  request: jsonBody(z.strictObject({ plugin: z.string().optional() })),
  responses: { ...begun, ...problemsOf(...writing, 'unknown-plugin') },
});

const backup = createRoute({
  method: 'post',
  path: '/api/admin/backup',
  summary: 'Make a verified copy inside the data folder',
  description:
    'The result names the folder of the copy. Where it goes from there is no matter of the request.',
  request: nothing,
  responses: { ...begun, ...problemsOf(...writing) },
});

const forget = createRoute({
  method: 'post',
  path: '/api/admin/forget',
  summary: 'Erase a person’s name and every text about them',
  request: jsonBody(z.strictObject({ id: z.uuid(), person: z.string().min(1).max(64) })),
  responses: {
    200: json(outcomeShape, 'Erased'),
    ...problemsOf(...writing, 'refused', 'log-damaged', 'log-unavailable'),
  },
});

const looked = createRoute({
  method: 'get',
  path: '/api/jobs/{job}',
  summary: 'How a piece of work stands',
  request: { params: z.object({ job: z.string() }) },
  responses: { 200: json(jobShape, 'The work'), ...problemsOf('unknown-job') },
});

export function upkeep<Before extends Schema>(
  app: OpenAPIHono<FromWhom, Before>,
  { host, jobs, keeping }: Services,
) {
  return app
    .openapi(verify, (c) =>
      c.json(
        jobs.start('verify', (progress) => host.verify(progress)),
        202,
      ),
    )
    .openapi(rebuild, (c) => {
      const { plugin } = c.req.valid('json');
      if (plugin !== undefined && !pluginsOf(host).some(({ id }) => id === plugin)) {
        throw new ProblemError('unknown-plugin', {
          field: 'plugin',
          detail: `There is no plugin ${plugin}.`,
        });
      }
      return c.json(
        jobs.start('rebuild', (progress) => host.rebuild(plugin, progress)),
        202,
      );
    })
    .openapi(backup, (c) =>
      c.json(
        jobs.start('backup', (progress) => keeping.backup(progress)),
        202,
      ),
    )
    .openapi(forget, async (c) => {
      const { id, person } = c.req.valid('json');
      const outcome = await host.forget(person, { id, who: c.get('who'), device: c.get('device') });
      return outcome.outcome === 'refused' ? (refusalResponse(outcome) as never) : c.json(outcome, 200);
    })
    .openapi(looked, (c) => {
      const job = jobs.get(c.req.valid('param').job);
      if (job === undefined) throw new ProblemError('unknown-job');
      return c.json(job, 200);
    });
}
