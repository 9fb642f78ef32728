import { expect, test } from 'vitest';
import { smallApp } from './small-studio.ts';

const document = async () => await (await smallApp().ask('/api/openapi.json')).json();

test('every address that is served is described, and every one of its failures as a problem', async () => {
  const { paths } = await document();
  expect(Object.keys(paths).sort()).toEqual([
    '/api/admin/backup',
    '/api/admin/forget',
    '/api/admin/rebuild',
    '/api/admin/verify',
    '/api/calendar',
    '/api/calendar/new-address',
    '/api/calendar/shut',
    '/api/commands',
    '/api/day',
    '/api/devices',
    '/api/devices/{device}',
    '/api/files',
    '/api/files/{sha256}',
    '/api/handouts',
    '/api/handouts/address',
    '/api/handouts/new-key',
    '/api/handouts/papers',
    '/api/handouts/{plugin}/{handout}/{key}',
    '/api/handouts/{plugin}/{handout}/{key}/file',
    '/api/health',
    '/api/import/{kind}',
    '/api/imports',
    '/api/imports/{job}',
    '/api/jobs/{job}',
    '/api/log',
    '/api/log/live',
    '/api/network',
    '/api/network/passphrase',
    '/api/openapi.json',
    '/api/papers/shelf/label',
    '/api/papers/{plugin}/{paper}',
    '/api/plugins',
    '/api/problems/{code}',
    '/api/reports/shelf/broken',
    '/api/reports/shelf/pots',
    '/api/reports/{plugin}/{report}',
    '/api/session',
    '/api/streams',
    '/api/timed',
    '/api/timed/{plugin}/{job}',
    '/api/timed/{plugin}/{job}/run',
    '/api/waiting',
    '/calendar/{file}',
    '/fetch/look.css',
    '/fetch/{plugin}/{handout}/{key}/{until}/{most}/{signature}',
  ]);
  // A buyer who opens a link reads a page, whatever became of it.
  const pages = (path: string) => path.startsWith('/fetch/{');
  for (const [path, methods] of Object.entries<
    Record<string, { responses: Record<string, { content?: object }> }>
  >(paths)) {
    for (const { responses } of Object.values(methods)) {
      const failures = Object.entries(responses).filter(([status]) => Number(status) >= 400);
      expect(failures.length).toBeGreaterThan(0);
      for (const [, { content }] of failures)
        expect(
          pages(path) ? ['application/problem+json', 'text/html'] : ['application/problem+json'],
        ).toEqual(expect.arrayContaining(Object.keys(content!)));
    }
  }
});

test('an order is one of the commands, told apart by its name, each with its own input', async () => {
  const { schemas } = (await document()).components;
  expect(schemas.Order.discriminator).toEqual({
    propertyName: 'command',
    mapping: {
      'entry.strike': '#/components/schemas/Order.entry.strike',
      'pot.put': '#/components/schemas/Order.pot.put',
    },
  });
  expect(schemas['Order.pot.put'].properties.command).toEqual({ const: 'pot.put' });
  expect(schemas['Order.pot.put'].properties.input).toMatchObject({
    properties: { count: { type: 'integer', minimum: 1 }, glaze: { type: 'string' } },
    required: ['count', 'glaze'],
    additionalProperties: false,
  });
});

test('a report is described with its own parameters beside those that every report takes', async () => {
  const { parameters } = (await document()).paths['/api/reports/shelf/pots'].get;
  expect(parameters.map(({ name }: { name: string }) => name)).toEqual([
    'format',
    'as-at',
    'known-at',
    'glaze',
    'least',
  ]);
});

test('every reference leads somewhere', async () => {
  const whole = await document();
  const references = [...JSON.stringify(whole).matchAll(/"\$ref":"#\/components\/schemas\/([^"]+)"/g)].map(
    ([, name]) => name!,
  );
  expect(references.length).toBeGreaterThan(10);
  for (const name of references) expect(Object.keys(whole.components.schemas)).toContain(name);
});
