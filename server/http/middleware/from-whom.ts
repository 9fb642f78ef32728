/**
 * Who records and on which device, as the page says in two headers. There are no
 * accounts yet: one maker, and a device id that the page made for itself.
 */
import type { MiddlewareHandler } from 'hono';
import { problemResponse } from '../problems.ts';

export const WHO = 'x-wareboard-who';
export const DEVICE = 'x-wareboard-device';
const ID = /^[A-Za-z0-9._-]{1,64}$/;

export type FromWhom = { Variables: { who: string; device: string } };

export function fromWhom(): MiddlewareHandler<FromWhom> {
  return async (c, next) => {
    const who = c.req.header(WHO) ?? 'maker';
    const device = c.req.header(DEVICE) ?? 'unnamed';
    for (const [field, value] of [
      [WHO, who],
      [DEVICE, device],
    ] as const) {
      if (ID.test(value)) continue;
      const detail = `${field} must be 1 to 64 letters, digits, dots, hyphens or underscores.`;
      return problemResponse('bad-input', { field, detail });
    }
    c.set('who', who);
    c.set('device', device);
    return next();
  };
}
