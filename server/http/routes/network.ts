/** /api/network and /api/devices: how the page is reached from other devices, and which of them were let in. */
import { createRoute, type OpenAPIHono, z } from '@hono/zod-openapi';
import type { Schema } from 'hono';
import { BadPassphrase } from '../../network/passphrase.ts';
import type { FromWhom } from '../middleware/from-whom.ts';
import { ProblemError } from '../problems.ts';
import { json, problemsOf, type Services } from './route.ts';
import { deviceShape } from './session.ts';

const networkShape = z.object({
  here: z.boolean().openapi({ description: 'Asked on the machine that Wareboard runs on' }),
  asked: z.boolean().openapi({ description: 'It was started with --network' }),
  on: z.boolean().openapi({ description: 'Other devices can reach it' }),
  passphrase: z.boolean().openapi({ description: 'A passphrase has been set' }),
  addresses: z.array(z.string()).readonly().openapi({ description: 'The first is the one to use' }),
  trust: z.string().optional().openapi({ description: 'Where the authority’s certificate is handed out' }),
  fingerprint: z.string().optional().openapi({ description: 'SHA-256 of that certificate' }),
  lost: z.string().optional().openapi({ description: 'An address that devices use and this machine lost' }),
  trouble: z.string().optional(),
});

const standing = createRoute({
  method: 'get',
  path: '/api/network',
  summary: 'How other devices reach this Wareboard',
  responses: { 200: json(networkShape, 'How it stands'), ...problemsOf() },
});

const passphrase = createRoute({
  method: 'put',
  path: '/api/network/passphrase',
  summary: 'Set the passphrase; every device is signed out',
  description: 'Only on the machine that Wareboard runs on.',
  request: {
    body: {
      required: true,
      content: { 'application/json': { schema: z.strictObject({ passphrase: z.string().max(2_000) }) } },
    },
  },
  responses: {
    200: json(networkShape, 'It is set'),
    ...problemsOf('bad-json', 'bad-input', 'bad-passphrase', 'only-here', 'wrong-media-type', 'not-offered'),
  },
});

const list = createRoute({
  method: 'get',
  path: '/api/devices',
  summary: 'The devices that are signed in',
  responses: {
    200: json(z.object({ devices: z.array(deviceShape) }), 'The last seen first'),
    ...problemsOf(),
  },
});

const away = createRoute({
  method: 'delete',
  path: '/api/devices/{device}',
  summary: 'Send a device away: it has to be let in anew',
  request: {
    params: z.object({ device: z.string() }),
    body: { required: true, content: { 'application/json': { schema: z.strictObject({}) } } },
  },
  responses: {
    200: json(z.object({ devices: z.array(deviceShape) }), 'The devices that are left'),
    ...problemsOf('unknown-device', 'wrong-media-type'),
  },
});

export function network<Before extends Schema>(
  app: OpenAPIHono<FromWhom, Before>,
  { keeping: { network: kept }, here }: Services,
) {
  const now = () =>
    kept === undefined
      ? { here, asked: false, on: false, passphrase: false, addresses: [] }
      : { here, ...kept.standing() };
  return app
    .openapi(standing, (c) => c.json(now(), 200))
    .openapi(passphrase, async (c) => {
      if (!here) throw new ProblemError('only-here');
      if (kept === undefined) throw new ProblemError('not-offered');
      try {
        await kept.setPassphrase(c.req.valid('json').passphrase);
      } catch (error) {
        if (!(error instanceof BadPassphrase)) throw error;
        throw new ProblemError('bad-passphrase', { detail: error.message, field: 'passphrase' });
      }
      return c.json(now(), 200);
    })
    .openapi(list, (c) => c.json({ devices: kept?.door.list() ?? [] }, 200))
    .openapi(away, (c) => {
      if (!kept?.door.sendAway(c.req.valid('param').device)) throw new ProblemError('unknown-device');
      return c.json({ devices: kept.door.list() }, 200);
    });
}
