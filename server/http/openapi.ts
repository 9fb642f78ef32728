/**
 * openapi.json: the routes as they are declared, with the inputs of every command,
 * report and paper that the loaded plugins offer.
 */
import { createRoute, type OpenAPIHono } from '@hono/zod-openapi';
import type { Host } from '../host/host.ts';
import { commandsOf, inputSchema, type JsonSchema, pluginsOf } from './catalogue.ts';
import type { FromWhom } from './middleware/from-whom.ts';
import { json, problemsOf } from './routes/route.ts';
import { jsonSchemaShape } from './shapes.ts';

const COMPONENTS = '#/components/schemas/';

interface Document {
  paths?: Record<string, Record<string, unknown>>;
  components?: { schemas?: Record<string, unknown> };
}

const route = createRoute({
  method: 'get',
  path: '/api/openapi.json',
  summary: 'This description',
  responses: { 200: json(jsonSchemaShape, 'OpenAPI 3.1'), ...problemsOf() },
});

export function openapi(app: OpenAPIHono<FromWhom>, host: Host, version: string): void {
  let made: Document | undefined;
  app.openapi(route, (c) => {
    made ??= describe(app, host, version);
    return c.json({ ...made }, 200);
  });
}

function describe(app: OpenAPIHono<FromWhom>, host: Host, version: string): Document {
  const document = app.getOpenAPI31Document({
    openapi: '3.1.0',
    info: {
      title: 'Wareboard',
      version,
      description: 'The record of a studio potter: commands go in, reports and papers come out.',
    },
    servers: [{ url: '/' }],
  }) as unknown as Document;
  const schemas = { ...document.components?.schemas, ...commandSchemas(host) };
  return {
    ...document,
    paths: {
      ...document.paths,
      ...offeredPaths(host, 'reports', document.paths?.['/api/reports/{plugin}/{report}'] ?? {}),
      ...offeredPaths(host, 'papers', document.paths?.['/api/papers/{plugin}/{paper}'] ?? {}),
    },
    components: { ...document.components, schemas },
  };
}

/** One schema for each command, told apart by `command`; `Order` is any of them. */
function commandSchemas(host: Host): Record<string, unknown> {
  const commands = commandsOf(host);
  const each = commands.map(({ command, title, input }) => [
    `Order.${command}`,
    {
      type: 'object',
      title,
      properties: {
        id: { type: 'string', format: 'uuid', description: 'Made by the sender (UUIDv7)' },
        command: { const: command },
        input,
        happenedAt: { type: 'string', description: 'Day, or moment with its offset; now when left out' },
        device: { type: 'string' },
      },
      required: ['id', 'command', 'input'],
      additionalProperties: false,
    },
  ]);
  const refs = commands.map(({ command }) => [command, `${COMPONENTS}Order.${command}`] as const);
  const order = {
    oneOf: refs.map(([, $ref]) => ({ $ref })),
    discriminator: { propertyName: 'command', mapping: Object.fromEntries(refs) },
  };
  return { ...Object.fromEntries(each), Order: order };
}

/** A path for each report or paper, with its own query parameters. */
function offeredPaths(
  host: Host,
  kind: 'reports' | 'papers',
  generic: Record<string, unknown>,
): Record<string, Record<string, unknown>> {
  const get = generic.get as { parameters?: { in: string }[] } | undefined;
  const everywhere = (get?.parameters ?? []).filter((parameter) => parameter.in === 'query');
  return Object.fromEntries(
    pluginsOf(host).flatMap(({ id, ...offered }) =>
      Object.entries(offered[kind] ?? {}).map(([name, { title, input }]) => [
        `/api/${kind}/${id}/${name}`,
        {
          get: {
            ...get,
            summary: title,
            tags: [id],
            parameters: [...everywhere, ...parametersOf(inputSchema(input))],
          },
        },
      ]),
    ),
  );
}

function parametersOf(schema: JsonSchema): unknown[] {
  const required = new Set((schema.required as string[] | undefined) ?? []);
  return Object.entries((schema.properties as Record<string, unknown> | undefined) ?? {}).map(
    ([name, field]) => ({
      name,
      in: 'query',
      required: required.has(name),
      schema: field,
    }),
  );
}
