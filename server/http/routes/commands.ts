/** POST /api/commands: records what the potter says happened. */
import { createRoute, type OpenAPIHono, z } from '@hono/zod-openapi';
import type { Order, Outcome } from '../../host/host.ts';
import { knowsCommand } from '../catalogue.ts';
import type { FromWhom } from '../middleware/from-whom.ts';
import { ProblemError, problemResponse } from '../problems.ts';
import { ordersShape, orderShape, outcomeShape } from '../shapes.ts';
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
    ...problemsOf('bad-json', 'bad-input', 'no-origin', 'unknown-command', 'command-reused', 'too-large', 'wrong-media-type', 'refused', 'log-damaged', 'log-unavailable'),
  },
});

type Sent = z.infer<typeof orderShape>;

export function commands(app: OpenAPIHono<FromWhom>, { host }: Services) {
  return app.openapi(route, async (c) => {
    const sent = c.req.valid('json');
    const signed = (one: Sent): Order => ({ ...one, who: c.get('who'), device: one.device ?? c.get('device') });
    if (Array.isArray(sent)) return c.json(await recordMany(sent.map(signed)), 200);
    if ('commands' in sent) return c.json({ outcomes: await recordMany(sent.commands.map(signed)) }, 200);
    const outcome = await recordOne(signed(sent));
    return outcome.outcome === 'refused' ? (refusalResponse(outcome) as never) : c.json(outcome, 200);
  });

  async function recordOne(order: Order): Promise<Outcome> {
    if (!knowsCommand(host, order.command)) throw new ProblemError('unknown-command', { field: 'command', detail: notOffered(order) });
    return host.record(order);
  }

  /** A command that nobody offers is refused in its place, and the others are judged without it. */
  async function recordMany(orders: readonly Order[]): Promise<Outcome[]> {
    const known = orders.filter(({ command }) => knowsCommand(host, command));
    const outcomes = (await host.recordAll(known)).values();
    return orders.map((order) => (knowsCommand(host, order.command) ? outcomes.next().value! : refusedUnknown(order)));
  }
}

const notOffered = ({ command }: Order) => `No plugin offers the command ${command}.`;

function refusedUnknown(order: Order): Outcome {
  const refusal = { refused: true, code: 'unknown-command', sentence: notOffered(order), field: 'command' } as const;
  return { outcome: 'refused', id: order.id, refusal };
}

export function refusalResponse({ id, refusal }: Extract<Outcome, { outcome: 'refused' }>): Response {
  const { code, sentence, field, others } = refusal;
  return problemResponse('refused', { detail: sentence, field, more: { code, order: id, ...(others ? { others } : {}) } });
}
