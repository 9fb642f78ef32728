/** GET /api/plugins: what can be asked and recorded, plugin by plugin. */
import { createRoute, type OpenAPIHono, z } from '@hono/zod-openapi';
import type { Schema } from 'hono';
import { commandsOf, inputSchema, pluginsOf } from '../catalogue.ts';
import type { FromWhom } from '../middleware/from-whom.ts';
import { jsonSchemaShape } from '../shapes.ts';
import { json, problemsOf, type Services } from './route.ts';

const offered = { title: z.string(), input: jsonSchemaShape };

const route = createRoute({
  method: 'get',
  path: '/api/plugins',
  summary: 'The plugins, their reports, papers and commands',
  responses: {
    200: json(
      z.object({
        plugins: z.array(
          z.object({
            id: z.string(),
            about: z.string(),
            needs: z.array(z.string()).readonly(),
            reports: z.array(z.object({ report: z.string(), listed: z.boolean(), ...offered })),
            papers: z.array(z.object({ paper: z.string(), listed: z.boolean(), ...offered })),
            commands: z.array(z.object({ command: z.string(), ...offered })),
          }),
        ),
        commands: z.array(z.object({ command: z.string(), plugin: z.string(), ...offered })),
      }),
      'Plugins in the order in which they are loaded, and all commands',
    ),
    ...problemsOf(),
  },
});

export function plugins<Before extends Schema>(app: OpenAPIHono<FromWhom, Before>, { host }: Services) {
  return app.openapi(route, (c) => {
    const commands = commandsOf(host);
    const listed = pluginsOf(host).map(({ id, about, needs, reports = {}, papers = {} }) => ({
      id,
      about,
      needs,
      reports: Object.entries(reports).map(([report, { title, input, unlisted }]) => ({
        report,
        title,
        listed: !unlisted,
        input: inputSchema(input),
      })),
      papers: Object.entries(papers).map(([paper, { title, input, unlisted }]) => ({
        paper,
        title,
        listed: !unlisted,
        input: inputSchema(input),
      })),
      commands: commands
        .filter(({ plugin }) => plugin === id)
        .map(({ command, title, input }) => ({ command, title, input })),
    }));
    return c.json({ plugins: listed, commands }, 200);
  });
}
