/** /api/timed: what plugins do by themselves, how it went the last time, and what the user gives them for it. */
import { createRoute, type OpenAPIHono, z } from '@hono/zod-openapi';
import type { Schema } from 'hono';
import type { PluginJob } from '../../contract/job.ts';
import type { Plugin } from '../../contract/plugin.ts';
import type { PluginJobs } from '../../timed/jobs.ts';
import { mayBeAsked } from '../../timed/requests.ts';
import type { FromWhom } from '../middleware/from-whom.ts';
import { ProblemError } from '../problems.ts';
import { jobShape } from '../shapes.ts';
import { json, problemsOf, type Services } from './route.ts';

const timedShape = z
  .object({
    plugin: z.string(),
    job: z.string(),
    title: z.string(),
    about: z.string().nullable(),
    on: z.boolean(),
    every: z.number().int().openapi({ description: 'Minutes between two times' }),
    running: z.boolean(),
    takes: z.array(
      z.object({
        name: z.string(),
        kind: z.enum(['address', 'key']),
        label: z.string(),
        hint: z.string().nullable(),
        given: z.boolean(),
        shown: z.string().nullable().openapi({ description: 'An address without its query; never a key' }),
      }),
    ),
    last: z.object({ at: z.string(), sentence: z.string(), failed: z.boolean() }).nullable(),
    failures: z.number().int().openapi({ description: 'How often it failed one after the other' }),
    since: z.string().nullable(),
  })
  .openapi('Timed');
type Timed = z.infer<typeof timedShape>;

const where = z.object({ plugin: z.string().max(80), job: z.string().max(80) });
const writing = [
  'bad-json',
  'bad-input',
  'no-origin',
  'too-large',
  'wrong-media-type',
  'unknown-job',
] as const;
const change = z.strictObject({
  on: z.boolean().optional(),
  every: z.number().int().min(5).max(1440).optional(),
  given: z
    .record(z.string().max(80), z.string().trim().max(2000).nullable())
    .optional()
    .openapi({ description: 'By name; null takes it away' }),
});
const body = <Shape extends z.ZodType>(schema: Shape) => ({
  body: { required: true, content: { 'application/json': { schema } } },
});

const list = createRoute({
  method: 'get',
  path: '/api/timed',
  summary: 'What is done by itself, and how it went',
  responses: { 200: json(z.object({ timed: z.array(timedShape) }), 'All timed work'), ...problemsOf() },
});
const set = createRoute({
  method: 'post',
  path: '/api/timed/{plugin}/{job}',
  summary: 'Say how often, whether at all, and give addresses and keys',
  description:
    'What is given is kept in a file of its own in the data folder, never in the log; a key is never told.',
  request: { params: where, ...body(change) },
  responses: { 200: json(timedShape, 'As it is now'), ...problemsOf(...writing) },
});
const now = createRoute({
  method: 'post',
  path: '/api/timed/{plugin}/{job}/run',
  summary: 'Do it now',
  request: { params: where, ...body(z.strictObject({})) },
  responses: {
    202: json(jobShape, 'Begun; GET /api/jobs/{job} tells how it stands'),
    ...problemsOf(...writing),
  },
});

/** What stands behind the ? of an address is often a key. */
function withoutQuery(address: string): string {
  const [plain, query] = address.split('?', 2);
  return query === undefined ? plain! : `${plain}?…`;
}

function toldOf(jobs: PluginJobs, plugin: Plugin, name: string, job: PluginJob): Timed {
  const { off, last, failures = 0, since } = jobs.book.of(plugin.id, name);
  return {
    plugin: plugin.id,
    job: name,
    title: job.title,
    about: job.about ?? null,
    on: !off,
    every: jobs.every(plugin, name, job),
    running: jobs.runs(plugin, name),
    takes: (job.takes ?? []).map(({ name: of, kind, label, hint = null }) => {
      const given = jobs.secrets.get(plugin.id, of);
      const shown = given !== undefined && kind === 'address' ? withoutQuery(given) : null;
      return { name: of, kind, label, hint, given: given !== undefined, shown };
    }),
    last: last ? { ...last, failed: last.failed ?? false } : null,
    failures,
    since: since ?? null,
  };
}

/** @throws ProblemError naming the field that is not as it should be */
function give(
  jobs: PluginJobs,
  plugin: Plugin,
  job: PluginJob,
  given: Readonly<Record<string, string | null>>,
) {
  for (const [name, value] of Object.entries(given)) {
    const field = `given.${name}`;
    const takes = (job.takes ?? []).find((one) => one.name === name);
    if (!takes) throw new ProblemError('bad-input', { field, detail: `“${job.title}” takes no ${name}.` });
    if (takes.kind === 'address' && value && !mayBeAsked(value))
      throw new ProblemError('bad-input', { field, detail: 'The address must begin with https://.' });
  }
  jobs.secrets.set(plugin.id, given);
}

export function timed<Before extends Schema>(
  app: OpenAPIHono<FromWhom, Before>,
  { keeping, jobs: works }: Services,
) {
  const all = () => keeping.timed?.all() ?? [];
  const find = ({ plugin: id, job: name }: z.infer<typeof where>) => {
    const found = all().find(([plugin, known]) => plugin.id === id && known === name);
    if (!keeping.timed || !found) throw new ProblemError('unknown-job');
    return [keeping.timed, ...found] as const;
  };
  return app
    .openapi(list, (c) =>
      c.json({ timed: all().map(([plugin, name, job]) => toldOf(keeping.timed!, plugin, name, job)) }, 200),
    )
    .openapi(set, (c) => {
      const [jobs, plugin, name, job] = find(c.req.valid('param'));
      const { on, every, given } = c.req.valid('json');
      if (given) give(jobs, plugin, job, given);
      if (on !== undefined || every !== undefined)
        jobs.set(plugin, name, job, {
          ...(on === undefined ? {} : { off: !on }),
          ...(every === undefined ? {} : { every }),
        });
      return c.json(toldOf(jobs, plugin, name, job), 200);
    })
    .openapi(now, (c) => {
      const [jobs, plugin, name, job] = find(c.req.valid('param'));
      return c.json(
        works.start('timed', () => jobs.run(plugin, name, job)),
        202,
      );
    });
}
