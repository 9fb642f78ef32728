/** GET /api/reports/PLUGIN/REPORT: an answer as JSON or CSV. */
import { createRoute, type OpenAPIHono, z } from '@hono/zod-openapi';
import type { Schema } from 'hono';
import { answer } from '../../contract/figures.ts';
import { findReport, pluginsOf } from '../catalogue.ts';
import { answerCsv } from '../csv.ts';
import type { FromWhom } from '../middleware/from-whom.ts';
import { ProblemError } from '../problems.ts';
import { joined, problemsOf, type Services } from './route.ts';

/** Made anew: a schema is only told how to describe itself when it is made after @hono/zod-openapi is loaded. */
const answerShape = z.strictObject(answer.shape).openapi('Answer');

const route = createRoute({
  method: 'get',
  path: '/api/reports/{plugin}/{report}',
  summary: 'A report',
  description:
    'Further query parameters are the input of the report (GET /api/plugins tells them). `as-at` asks what had ' +
    'happened by the end of a day, `known-at` what had been recorded by then. The header `x-wareboard-entries` says how ' +
    'many entries the log had when it was asked: the answer holds at least those.',
  request: {
    params: z.object({ plugin: z.string(), report: z.string() }),
    query: z.object({
      format: z.enum(['json', 'csv']).optional(),
      'as-at': z.string().optional().openapi({ format: 'date' }),
      'known-at': z.string().optional().openapi({ format: 'date' }),
    }),
  },
  responses: {
    200: {
      description: 'The answer',
      content: { 'application/json': { schema: answerShape }, 'text/csv': { schema: z.string() } },
    },
    ...problemsOf('bad-input', 'unknown-plugin', 'unknown-report', 'report-failed'),
  },
});

export function reports<Before extends Schema>(app: OpenAPIHono<FromWhom, Before>, { host }: Services) {
  return app.openapi(route, async (c) => {
    const { plugin, report } = c.req.valid('param');
    if (findReport(host, plugin, report) === undefined) throw unknown(plugin, report);
    const { format, ...params } = joined(c.req.queries());
    const given = await host.report(plugin, report, params);
    if (format !== 'csv' && !(format === undefined && prefersCsv(c.req.header('accept'))))
      return c.json(given, 200);
    c.header('content-type', 'text/csv; charset=utf-8; header=present');
    c.header('content-disposition', `attachment; filename="${plugin}-${report}.csv"`);
    c.header('vary', 'Accept');
    return c.body(answerCsv(given), 200) as never;
  });

  function unknown(plugin: string, report: string): ProblemError {
    const known = pluginsOf(host).find(({ id }) => id === plugin);
    if (known === undefined)
      return new ProblemError('unknown-plugin', { detail: `There is no plugin ${plugin}.` });
    const offered = Object.keys(known.reports ?? {}).join(', ') || 'none';
    return new ProblemError('unknown-report', {
      detail: `${plugin} has no report ${report}; it offers: ${offered}.`,
    });
  }
}

function prefersCsv(accept = ''): boolean {
  const csv = accept.indexOf('text/csv');
  const other = accept.indexOf('application/json');
  return csv >= 0 && (other < 0 || csv < other);
}
