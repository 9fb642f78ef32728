/** POST /api/commands: records what the potter says happened. */
import { createRoute, type OpenAPIHono, z } from '@hono/zod-openapi';
import type { Schema } from 'hono';
import type { Outcome } from '../../host/host.ts';
import { type Dependent, recordInTurn } from '../../host/in-turn.ts';
import type { FromWhom } from '../middleware/from-whom.ts';
import { problemResponse } from '../problems.ts';
import { type orderShape, ordersShape, outcomeShape } from '../shapes.ts';
import { json, problemsOf, type Services } from './route.ts';

const route = createRoute({
  method: 'post',
  path: '/api/commands',
  summary: 'Record one command or many',
  description:
    'One order is answered with its outcome; a refusal is a problem of status 422. Many (an array, or an object ' +
    'with `commands`) are judged in order and always answered with 200, each outcome in the place of its order.',
  request: { body: { required: true, content: { 'application/json': { schema: ordersShape } } } },
  responses: {
    200: json(
      z.union([outcomeShape, z.array(outcomeShape), z.object({ outcomes: z.array(outcomeShape) })]),
      'The outcome, or an outcome for each order',
    ),
    ...problemsOf(
      'bad-json',
      'bad-input',
      'no-origin',
      'too-large',
      'wrong-media-type',
      'refused',
      'log-damaged',
      'log-unavailable',
    ),
  },
});

type Sent = z.infer<typeof orderShape>;

export function commands<Before extends Schema>(app: OpenAPIHono<FromWhom, Before>, { host }: Services) {
  return app.openapi(route, async (c) => {
    const sent = c.req.valid('json');
    const signed = (one: Sent): Dependent => ({
      ...one,
      who: c.get('who'),
      device: one.device ?? c.get('device'),
    });
    const inTurn = (many: readonly Sent[]) =>
      recordInTurn(many.map(signed), (orders) => host.recordAll(orders));
    if (Array.isArray(sent)) return c.json(await inTurn(sent), 200);
    if ('commands' in sent) return c.json({ outcomes: await inTurn(sent.commands) }, 200);
    const { needs: _alone, ...order } = signed(sent);
    const outcome = await host.record(order);
    return outcome.outcome === 'refused' ? (refusalResponse(outcome) as never) : c.json(outcome, 200);
  });
}

export function refusalResponse({ id, refusal }: Extract<Outcome, { outcome: 'refused' }>): Response {
  const { code, sentence, field, others, meanwhile } = refusal;
  return problemResponse('refused', {
    detail: sentence,
    field,
    more: { code, order: id, ...(others ? { others } : {}), ...(meanwhile ? { meanwhile } : {}) },
  });
}
