/** What timed work may ask of the outside: GET over https, or http to this machine, with an end to waiting. */
import { type Asked, NoAnswer, type Received } from '../contract/job.ts';

/** Calls back once after so many milliseconds; what it gives stops it. */
export type After = (ms: number, work: () => void) => () => void;

/** Milliseconds until an answer must have come whole. */
export const SLOWEST = 20_000;
const LARGEST = 10 * 1024 * 1024;

const local = (url: URL): boolean => ['127.0.0.1', 'localhost', '[::1]'].includes(url.hostname);

/** Whether it may be asked: over https, or http to this machine. */
export function mayBeAsked(address: string): boolean {
  const url = URL.canParse(address) ? new URL(address) : undefined;
  return url?.protocol === 'https:' || (url?.protocol === 'http:' && local(url));
}

/** No redirects, since a key may go along. */
export async function get(address: string, { headers = {} }: Asked, after: After): Promise<Received> {
  if (!mayBeAsked(address)) throw new NoAnswer('its address does not begin with https://.');
  const patience = new AbortController();
  const stop = after(SLOWEST, () => patience.abort());
  try {
    const answer = await fetch(address, { headers, redirect: 'error', signal: patience.signal });
    const text = await limited(answer);
    return { status: answer.status, header: (name) => answer.headers.get(name) ?? undefined, text };
  } catch (error) {
    if (error instanceof NoAnswer) throw error;
    throw new NoAnswer(patience.signal.aborted ? 'it took too long.' : 'there was no connection.');
  } finally {
    stop();
  }
}

async function limited(answer: Response): Promise<string> {
  const decoder = new TextDecoder();
  let text = '';
  let bytes = 0;
  for await (const part of (answer.body ?? []) as AsyncIterable<Uint8Array>) {
    bytes += part.length;
    if (bytes > LARGEST) throw new NoAnswer('it sent more than 10 MB at once.');
    text += decoder.decode(part, { stream: true });
  }
  return text + decoder.decode();
}
