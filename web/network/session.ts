/** Whether this device may come in: asked once, and again when the server says that it may not. */
import { signal } from '@preact/signals';
import { ask, Failed, type Problem, send } from '../api/client.ts';
import { nowRecorded } from '../api/fresh.ts';
import { signedOut } from '../api/signed-out.ts';

export interface Device {
  readonly id: string;
  readonly name: string;
  /** UTC instants. */
  readonly since: string;
  readonly seen: string;
}

export interface Session {
  /** The page is open on the machine that Wareboard runs on. */
  readonly here: boolean;
  readonly signedIn: boolean;
  readonly device?: Device;
}

/** Undefined until the server has said so, and while it cannot be reached. */
export const session = signal<Session | undefined>(undefined);

export async function askSession(): Promise<void> {
  try {
    session.value = await ask<Session>('/api/session');
    signedOut.value = !session.value.signedIn;
  } catch (failure) {
    if (!(failure instanceof Failed)) throw failure;
  }
}

export interface Refused {
  readonly problem: Problem;
  /** Seconds until the next try. */
  readonly wait?: number;
}

export async function signIn(passphrase: string, name: string): Promise<Refused | undefined> {
  try {
    session.value = await send<Session>('/api/session', { passphrase, name });
    signedOut.value = false;
    nowRecorded();
    return undefined;
  } catch (failure) {
    if (!(failure instanceof Failed)) throw failure;
    const wait = failure.problem.more?.seconds;
    return { problem: failure.problem, ...(typeof wait === 'number' ? { wait } : {}) };
  }
}

export async function signOut(): Promise<void> {
  session.value = await ask<Session>('/api/session', {
    method: 'DELETE',
    headers: { 'content-type': 'application/json' },
    body: '{}',
  });
  signedOut.value = !session.value.signedIn;
}
