/**
 * From the network only a signed-in device may ask anything of /api, but who it is and to be let in. What it
 * shows is a cookie that no script can read and that is sent to no other place. When it is sent away its open
 * connections are cut, so that nothing more reaches it.
 */

import type { Socket } from 'node:net';
import type { Context, MiddlewareHandler } from 'hono';
import { deleteCookie, getCookie, setCookie } from 'hono/cookie';
import type { Device } from '../../network/devices.ts';
import type { Door } from '../../network/door.ts';
import { problemResponse } from '../problems.ts';

const COOKIE = 'wareboard';
/** The longest that browsers keep a cookie. */
const KEPT_SECONDS = 400 * 86_400;
const OPEN = '/api/session';

type Env = { Variables: { signedIn: Device | undefined } };

/** `__Host-` binds it to this name, to https and to the whole of the page. */
export function giveToken(c: Context, token: string): void {
  setCookie(c, COOKIE, token, {
    prefix: 'host',
    path: '/',
    secure: true,
    httpOnly: true,
    sameSite: 'Strict',
    maxAge: KEPT_SECONDS,
  });
}

export const tokenOf = (c: Context): string | undefined => getCookie(c, COOKIE, 'host');

export function takeToken(c: Context): void {
  deleteCookie(c, COOKIE, { prefix: 'host', path: '/', secure: true });
}

export function signedIn(door: Door): MiddlewareHandler<Env> {
  const sockets = new Map<string, Set<Socket>>();
  door.onGone((device) => {
    // In the next turn, so that a device that signs itself out still hears that it did.
    setImmediate(() => {
      for (const socket of sockets.get(device) ?? []) socket.end(() => socket.destroy());
      sockets.delete(device);
    });
  });
  return async (c, next) => {
    const device = door.who(tokenOf(c));
    c.set('signedIn', device);
    if (device !== undefined) watch(sockets, device.id, socketOf(c));
    else if (c.req.path !== OPEN) return problemResponse('signed-out');
    return next();
  };
}

/** The connection a request came by; absent where it came by none (tests). */
export function socketOf(c: Context): Socket | undefined {
  const env = c.env as { incoming?: { socket?: Socket } } | undefined;
  return env?.incoming?.socket;
}

function watch(sockets: Map<string, Set<Socket>>, device: string, socket: Socket | undefined): void {
  if (socket === undefined) return;
  const mine = sockets.get(device) ?? new Set();
  sockets.set(device, mine);
  if (mine.has(socket)) return;
  mine.add(socket);
  socket.once?.('close', () => {
    mine.delete(socket);
    if (mine.size === 0 && sockets.get(device) === mine) sockets.delete(device);
  });
}
