/** The shapes that go over http, as zod schemas; openapi.json is made from them. */
import { z } from '@hono/zod-openapi';
import { happenedAt } from '../contract/studio/values.ts';

const moment = z.iso.datetime({ offset: true });

export const orderShape = z
  .strictObject({
    id: z
      .uuid()
      .openapi({ description: 'Made by the sender (UUIDv7); sent again, it records nothing twice' }),
    command: z.string().min(1).max(120).openapi({ example: 'piece.begin' }),
    input: z.unknown(),
    happenedAt: happenedAt
      .optional()
      .openapi({ description: 'Day, or moment with its offset; now when left out' }),
    device: z
      .string()
      .regex(/^[A-Za-z0-9._-]{1,64}$/, 'an id of 1 to 64 letters, digits, dots, hyphens or underscores')
      .optional()
      .openapi({ description: 'The device it was noted on, when not the one that sends it' }),
    clock: moment.optional().openapi({
      description:
        'What the device’s own clock showed when it was noted; kept with the entry, and when it happened if that is left out',
    }),
    sent: moment.optional().openapi({
      description: 'What the device’s own clock shows now: a clock that is minutes out is set right by it',
    }),
    seen: z.number().int().min(0).optional().openapi({
      description:
        'How many entries the device knew of: what others recorded since then is held against the order',
    }),
    needs: z
      .array(z.uuid())
      .max(1_000)
      .optional()
      .openapi({ description: 'Orders that must have been taken first; held back where one is refused' }),
  })
  .openapi('Order');

/** How many orders are taken in one request. */
export const ORDERS_AT_ONCE = 1_000;
const orders = z.array(orderShape).max(ORDERS_AT_ONCE, `no more than ${ORDERS_AT_ONCE} at once`);
export const ordersShape = z
  .union([orderShape, orders, z.strictObject({ commands: orders })])
  .openapi('Orders');

export const entryShape = z
  .object({
    seq: z.number().int(),
    command: z.string(),
    part: z.number().int(),
    name: z.string(),
    version: z.number().int(),
    happenedAt: z.string(),
    recordedAt: z.string(),
    who: z.string(),
    device: z.string(),
    clock: z.string().optional(),
    streams: z.array(z.string()).readonly(),
    claims: z.array(z.string()).readonly().optional(),
    releases: z.array(z.string()).readonly().optional(),
    data: z.unknown(),
  })
  .openapi('Entry');

export const restingShape = z.object({
  seq: z.number().int(),
  name: z.string(),
  happenedAt: z.string(),
  why: z.string(),
});

export const refusalShape = z.object({
  refused: z.literal(true),
  code: z.string(),
  sentence: z.string(),
  field: z.string().optional(),
  others: z.array(restingShape).readonly().optional(),
  meanwhile: z.array(entryShape).readonly().optional(),
});

const alike = z
  .array(z.number().int())
  .readonly()
  .optional()
  .openapi({ description: 'Entries of other devices that say the same' });

export const recordedShape = z
  .object({
    outcome: z.enum(['recorded', 'repeated']),
    id: z.string(),
    first: z.number().int(),
    last: z.number().int(),
    alike,
  })
  .openapi('Recorded');
export const unchangedShape = z
  .object({ outcome: z.literal('unchanged'), id: z.string(), alike })
  .openapi('Unchanged');
export const refusedShape = z
  .object({ outcome: z.literal('refused'), id: z.string(), refusal: refusalShape })
  .openapi('Refused');
export const heldShape = z
  .object({ outcome: z.literal('held'), id: z.string(), needs: z.string() })
  .openapi('Held', { description: 'Not decided: an order that it needs was refused' });
export const outcomeShape = z
  .union([recordedShape, unchangedShape, refusedShape, heldShape])
  .openapi('Outcome');

export const headShape = z.object({ count: z.number().int(), hash: z.string() }).openapi('Head');

export const jobShape = z
  .object({
    job: z.string(),
    kind: z.string(),
    state: z.enum(['running', 'done', 'failed']),
    done: z.number(),
    of: z.number(),
    result: z.unknown().optional(),
    problem: z.looseObject({ code: z.string(), detail: z.string() }).optional(),
  })
  .openapi('Job');

export const jsonSchemaShape = z
  .record(z.string(), z.unknown())
  .openapi({ description: 'JSON Schema (2020-12)' });
