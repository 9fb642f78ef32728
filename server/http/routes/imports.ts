/**
 * A file comes in as the body of a request: POST /api/import/notebook answers
 * when it is done, POST /api/imports at once with a job to look at.
 */
import { createRoute, type OpenAPIHono, z } from '@hono/zod-openapi';
import type { Context, Schema } from 'hono';
import type { Progress } from '../../host/host.ts';
import { findImport, importFile } from '../../import/plugin-import.ts';
import type { FromWhom } from '../middleware/from-whom.ts';
import { mediaType } from '../middleware/same-origin.ts';
import { ProblemError } from '../problems.ts';
import type { Import } from '../services.ts';
import { jobShape } from '../shapes.ts';
import { receive, type Upload } from '../upload.ts';
import { json, problemsOf, type Services } from './route.ts';

const flag = z.enum(['', 'true', 'false', '1', '0']).optional();
const asked = {
  'dry-run': flag.openapi({ description: 'Say what would be recorded, and record nothing' }),
  again: flag.openapi({ description: 'Take in again what was struck out here' }),
  mapping: z
    .string()
    .max(10_000)
    .optional()
    .openapi({ description: 'JSON object: column by heading of the file' }),
};
const body = {
  required: true,
  content: { 'text/csv': { schema: z.string().openapi({ format: 'binary' }) } },
};
const problems = problemsOf(
  'bad-input',
  'bad-mapping',
  'no-origin',
  'too-large',
  'wrong-media-type',
  'import-failed',
  'not-offered',
  'log-damaged',
  'log-unavailable',
);

const now = createRoute({
  method: 'post',
  path: '/api/import/{kind}',
  summary: 'Import a file and wait for the outcome',
  request: {
    params: z.object({
      kind: z
        .string()
        .openapi({ description: 'notebook, or a kind that a plugin takes in', example: 'notebook' }),
    }),
    query: z.object(asked),
    body,
  },
  responses: {
    200: json(
      z.unknown().openapi({ description: 'Summary of the import' }),
      'What was, or would be, recorded',
    ),
    ...problems,
  },
});

const begun = createRoute({
  method: 'post',
  path: '/api/imports',
  summary: 'Begin an import and look at it later',
  request: {
    query: z.object({
      kind: z.string().optional().openapi({ description: 'notebook when left out' }),
      ...asked,
    }),
    body,
  },
  responses: { 202: json(jobShape, 'The file is here and is being imported'), ...problems },
});

const looked = createRoute({
  method: 'get',
  path: '/api/imports/{job}',
  summary: 'How an import stands',
  request: { params: z.object({ job: z.string() }) },
  responses: { 200: json(jobShape, 'The import; `result` is its summary'), ...problemsOf('unknown-job') },
});

const isOn = (said: string | undefined): boolean => said !== undefined && !['false', '0'].includes(said);

type By = { readonly who: string; readonly device: string };

const by = (c: Context<FromWhom>): By => ({ who: c.get('who'), device: c.get('device') });

export function imports<Before extends Schema>(
  app: OpenAPIHono<FromWhom, Before>,
  { host, jobs, keeping }: Services,
) {
  return app
    .openapi(now, async (c) => {
      const work = prepared(c.req.valid('param').kind, c.req.valid('query'), by(c));
      const upload = await received(c);
      return c.json(await work(upload, () => {}), 200);
    })
    .openapi(begun, async (c) => {
      const { kind = 'notebook', ...query } = c.req.valid('query');
      const work = prepared(kind, query, by(c));
      const upload = await received(c);
      return c.json(
        jobs.start(`import ${kind}`, (progress) => work(upload, progress)),
        202,
      );
    })
    .openapi(looked, (c) => {
      const job = jobs.get(c.req.valid('param').job);
      if (job === undefined) throw new ProblemError('unknown-job');
      return c.json(job, 200);
    });

  /** All that can be wrong with the question is found before the file is read. */
  function prepared(kind: string, query: { 'dry-run'?: string; again?: string; mapping?: string }, from: By) {
    const work = workFor(kind);
    if (work === undefined)
      throw new ProblemError('not-offered', { detail: `No plugin here imports ${kind}.` });
    const mapping = parseMapping(query.mapping);
    const dryRun = isOn(query['dry-run']);
    const again = isOn(query.again);
    return (upload: Upload, progress: Progress) =>
      work({
        host,
        source: upload.path,
        dryRun,
        again,
        mapping,
        folder: keeping.folder,
        ...from,
        progress,
      }).finally(upload.remove);
  }

  function workFor(kind: string): Import | undefined {
    if (Object.hasOwn(keeping.imports, kind)) return keeping.imports[kind];
    const declared = findImport(host.registry, kind);
    return declared && ((request) => importFile(kind, declared, { ...request, now: keeping.clock }));
  }

  function received(c: Context): Promise<Upload> {
    if (mediaType(c.req.header('content-type')) !== 'text/csv') {
      throw new ProblemError('wrong-media-type', {
        detail: 'A file is sent as text/csv: save the sheet as CSV first.',
      });
    }
    return receive(c.req.raw.body as never, c.req.header('content-length'), keeping.uploads);
  }
}

const mappingShape = z.record(z.string(), z.string());

function parseMapping(text: string | undefined): Record<string, string> | undefined {
  if (text === undefined || text === '') return undefined;
  try {
    return mappingShape.parse(JSON.parse(text));
  } catch {
    throw new ProblemError('bad-mapping', { field: 'mapping' });
  }
}
