/** The way to the studio for what waits: one request for many orders, pictures before the order that names them. */
import { clockText } from '../api/moments.ts';
import type { Answer, Line, Outcome } from './sender.ts';
import type { OutboxStore } from './store.ts';
import type { Refused, Unsent } from './unsent.ts';

export interface LineOf {
  readonly fetch: (address: string, init: RequestInit) => Promise<Response>;
  readonly device: string;
  readonly now: () => Date;
  readonly files: Pick<OutboxStore, 'files'>;
}

/** The studio's own disk is full: only its user can do something about that. */
const NO_ROOM = 'no-room';

/** A network that neither answers nor breaks off. */
const PATIENCE = 30_000;

export function lineTo({ fetch, device, now, files }: LineOf): Line {
  const from = { 'x-wareboard-device': device };
  /** Brought up already; the order that names them may still be on its way. */
  const brought = new Set<string>();
  const ask = async (address: string, init: RequestInit): Promise<Response | undefined> => {
    try {
      return await fetch(address, { ...init, signal: AbortSignal.timeout(PATIENCE) });
    } catch {
      return undefined;
    }
  };
  return {
    post: async (orders) => {
      const body = JSON.stringify({ commands: orders.map((order) => wire(order, orders, now())) });
      const headers = { accept: 'application/json', 'content-type': 'application/json', ...from };
      const response = await ask('/api/commands', { method: 'POST', headers, body });
      const stopped = await stoppedBy(response);
      if (stopped) return stopped;
      try {
        const { outcomes } = (await response!.json()) as { outcomes: readonly Outcome[] };
        const lacks = outcomes.some((it) => it.outcome === 'refused' && it.refusal.code === 'file-not-here');
        if (lacks) brought.clear();
        return { told: outcomes };
      } catch {
        // Cut off within the answer: it was taken or not, and sending again will tell.
        return { failed: 'not-reached' };
      }
    },
    bringFiles: async (order) => {
      const missing = (order.files ?? []).filter((sha256) => !brought.has(sha256));
      for (const { sha256, blob } of await files.files(missing)) {
        const headers = { 'content-type': blob.type, ...from };
        const response = await ask(`/api/files/${sha256}`, { method: 'PUT', headers, body: blob });
        const stopped = await stoppedBy(response);
        if (stopped) return stopped;
        brought.add(sha256);
      }
      return undefined;
    },
  };
}

/** As the studio reads it. Only needs that go along can still be refused: the others were taken. */
function wire(order: Unsent, batch: readonly Unsent[], now: Date): object {
  const { id, command, input, happenedAt, clock, seen } = order;
  const needs = order.needs.filter((need) => batch.some((it) => it.id === need));
  return { id, command, input, happenedAt, clock, sent: clockText(now), seen, needs };
}

interface ProblemBody {
  readonly code?: string;
  readonly detail?: string;
  readonly title?: string;
  readonly field?: string;
}

/** Why it cannot go on; undefined where it was answered as it should be. */
async function stoppedBy(response: Response | undefined): Promise<Answer | undefined> {
  if (response === undefined) return { failed: 'not-reached' };
  if (response.ok) return undefined;
  if (response.status === 401) return { failed: 'signed-out' };
  const body: ProblemBody = await response.json().catch(() => ({}));
  // A gateway that finds no studio behind it answers for itself, without a problem of ours.
  const busy = response.status === 429 || (response.status > 501 && response.status < 505);
  if (busy || (response.status >= 500 && body.code === undefined)) return { failed: 'busy' };
  const cannot: Refused = {
    refused: true,
    code:
      response.status >= 500 && body.code !== NO_ROOM
        ? 'went-wrong'
        : (body.code ?? `http-${response.status}`),
    sentence: body.detail ?? body.title ?? '',
    ...(body.field ? { field: body.field } : {}),
  };
  return { cannot };
}
