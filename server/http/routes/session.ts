/** /api/session: lets a device in from the network, says who it is, and signs it out. */
import { createRoute, type OpenAPIHono, z } from '@hono/zod-openapi';
import type { Context, Schema } from 'hono';
import type { FromWhom } from '../middleware/from-whom.ts';
import { giveToken, socketOf, takeToken, tokenOf } from '../middleware/signed-in.ts';
import { ProblemError, problemResponse } from '../problems.ts';
import { json, problemsOf, type Services } from './route.ts';

export const deviceShape = z
  .object({
    id: z.string(),
    name: z.string().openapi({ description: 'As its user called it' }),
    since: z.string().openapi({ description: 'UTC instant of its first coming in' }),
    seen: z.string().openapi({ description: 'UTC instant at which it last asked for something' }),
  })
  .openapi('Device');

const sessionShape = z.object({
  /** The page is open on the machine that Wareboard runs on, where nobody signs in. */
  here: z.boolean(),
  signedIn: z.boolean(),
  device: deviceShape.optional(),
});

const asked = createRoute({
  method: 'get',
  path: '/api/session',
  summary: 'Whether this device is signed in',
  responses: { 200: json(sessionShape, 'How it stands'), ...problemsOf() },
});

const signIn = createRoute({
  method: 'post',
  path: '/api/session',
  summary: 'Sign this device in with the studio’s passphrase',
  request: {
    body: {
      required: true,
      content: {
        'application/json': {
          schema: z.strictObject({
            passphrase: z.string().min(1).max(2_000),
            name: z.string().trim().min(1).max(60).openapi({ description: 'What to call this device' }),
          }),
        },
      },
    },
  },
  responses: {
    200: json(sessionShape, 'It is signed in; a cookie says so from now on'),
    ...problemsOf('bad-json', 'bad-input', 'wrong-passphrase', 'too-many-tries', 'wrong-media-type'),
  },
});

const signOut = createRoute({
  method: 'delete',
  path: '/api/session',
  summary: 'Sign this device out',
  request: { body: { required: true, content: { 'application/json': { schema: z.strictObject({}) } } } },
  responses: { 200: json(sessionShape, 'It is signed out'), ...problemsOf('wrong-media-type') },
});

export function session<Before extends Schema>(
  app: OpenAPIHono<FromWhom, Before>,
  { keeping: { network }, here }: Services,
) {
  return app
    .openapi(asked, (c) => {
      if (here || network === undefined) return c.json({ here: true, signedIn: true }, 200);
      const device = network.door.who(tokenOf(c));
      return c.json({ here: false, signedIn: device !== undefined, device }, 200);
    })
    .openapi(signIn, async (c) => {
      if (here || network === undefined) return c.json({ here: true, signedIn: true }, 200);
      const { passphrase, name } = c.req.valid('json');
      const address = socketOf(c)?.remoteAddress ?? 'unknown';
      const answer = await network.door.signIn({ passphrase, name, address, token: tokenOf(c) });
      if (answer.outcome === 'wrong') throw new ProblemError('wrong-passphrase');
      if (answer.outcome === 'wait') return waiting(answer.seconds) as never;
      giveToken(c, answer.token);
      network.cameInBy(nameIn(c));
      return c.json({ here: false, signedIn: true, device: answer.device }, 200);
    })
    .openapi(signOut, (c) => {
      if (here || network === undefined) return c.json({ here: true, signedIn: true }, 200);
      const device = network.door.who(tokenOf(c));
      if (device !== undefined) network.door.signOut(device.id);
      takeToken(c);
      return c.json({ here: false, signedIn: false }, 200);
    });
}

function waiting(seconds: number): Response {
  const answer = problemResponse('too-many-tries', {
    detail: `The passphrase was wrong several times. Wait ${said(seconds)}, then try again.`,
    more: { seconds },
  });
  answer.headers.set('retry-after', String(seconds));
  return answer;
}

const said = (seconds: number): string => {
  if (seconds < 90) return seconds === 1 ? 'one second' : `${seconds} seconds`;
  return `${Math.ceil(seconds / 60)} minutes`;
};

/** The host header without its port. */
const nameIn = (c: Context): string => (c.req.header('host') ?? '').toLowerCase().replace(/:\d+$/, '');
