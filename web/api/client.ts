/** Every request to the server, and the one shape that whatever went wrong comes in. */
import type { Answer } from '../../server/contract/figures.ts';
import { nowAsking } from './fresh.ts';
import { fromHere, keepTold, knock } from './offline.ts';
import { reach } from './reach.ts';
import { signedOut } from './signed-out.ts';

/** RFC 9457 problem details, and what the page itself finds wrong. */
export interface Problem {
  /** Stable id, shown in small print. */
  readonly code: string;
  readonly sentence: string;
  /** Path of the input field at fault. */
  readonly field?: string;
  readonly status: number;
  /** Further members of the problem document. */
  readonly more?: Readonly<Record<string, unknown>>;
}

export class Failed extends Error {
  constructor(readonly problem: Problem) {
    super(problem.sentence);
  }
}

interface ProblemBody {
  readonly type?: string;
  readonly code?: string;
  readonly title?: string;
  readonly detail?: string;
  readonly field?: string;
  readonly [more: string]: unknown;
}

function read(body: ProblemBody, status: number): Problem {
  const code = body.code ?? body.type?.split(/[/#:]/).pop() ?? `http-${status}`;
  if (code === 'signed-out') signedOut.value = true;
  return { code, sentence: body.detail ?? body.title ?? '', status, field: body.field, more: body };
}

/** Answers that say how much of the log they know of. */
const KNOWING = /^\/api\/(reports\/|waiting$)/;
const ENTRIES = 'x-wareboard-entries';

/** The server's answer, or `Failed` with the problem it named. */
export async function ask<T>(address: string, init?: RequestInit): Promise<T> {
  if (!KNOWING.test(address)) return (await fetched<T>(address, init)).answer;
  const told = nowAsking();
  let entries: string | undefined;
  try {
    const { answer, headers } = await fetched<T>(address, init);
    entries = headers?.get(ENTRIES) ?? undefined;
    return answer;
  } finally {
    told(entries === undefined ? undefined : Number(entries));
  }
}

interface Fetched<T> {
  readonly answer: T;
  /** None where this device told it. */
  readonly headers?: Headers;
}

async function fetched<T>(address: string, init?: RequestInit): Promise<Fetched<T>> {
  const reading = (init?.method ?? 'GET') === 'GET';
  if (reading && reach.peek() === 'away') {
    const told = await fromHere(address);
    void knock();
    if (told !== undefined) return { answer: told as T };
  }
  let response: Response;
  try {
    response = await fetch(address, { ...init, headers: { accept: 'application/json', ...init?.headers } });
  } catch (cause) {
    if (cause instanceof DOMException && cause.name === 'AbortError') throw cause;
    reach.value = 'away';
    const told = reading ? await fromHere(address) : undefined;
    if (told !== undefined) return { answer: told as T };
    throw new Failed({ code: 'not-reached', sentence: '', status: 0 });
  }
  if (reach.peek() === 'away') reach.value = 'here';
  if (response.ok) {
    const answer = (await response.json()) as T;
    if (reading) keepTold(address, answer);
    return { answer, headers: response.headers };
  }
  const body = await response.json().catch(() => ({}));
  throw new Failed(read(body as ProblemBody, response.status));
}

export const send = <T>(
  address: string,
  body: unknown,
  headers: Readonly<Record<string, string>> = {},
): Promise<T> =>
  ask<T>(address, {
    method: 'POST',
    headers: { 'content-type': 'application/json', ...headers },
    body: JSON.stringify(body),
  });

export type Params = Readonly<Record<string, string | undefined>>;

/** 'a=1&b=2' of the parameters that have a value, in a fixed order. */
export function queryOf(params: Params): string {
  const filled = Object.entries(params).filter((entry): entry is [string, string] => !!entry[1]);
  return new URLSearchParams(filled.sort(([a], [b]) => (a < b ? -1 : 1))).toString();
}

export function reportAddress(report: string, params: Params = {}): string {
  const query = queryOf(params);
  return `/api/reports/${report}${query ? `?${query}` : ''}`;
}

/** Of a PDF, to open or to keep. */
export function paperAddress(paper: string, params: Params = {}): string {
  const query = queryOf(params);
  return `/api/papers/${paper}${query ? `?${query}` : ''}`;
}

/** An answer whose rows and `more` the page knows by name. */
export type Told<Row, More = Record<string, never>> = Omit<Answer, 'rows' | 'more'> & {
  readonly rows: readonly Row[];
  readonly more: More;
};
