import { expect, test, vi } from 'vitest';
import { put, smallApp } from './small-studio.ts';

const withPots = async (number: number) => {
  const made = smallApp();
  for (let n = 0; n < number; n++) await made.post('/api/commands', put(1));
  return made;
};

test('the log is read page by page, in order, to its end', async () => {
  const { ask } = await withPots(5);
  const seqs: number[] = [];
  let after: number | null = 0;
  while (after !== null) {
    const { entries, next } = (await (await ask(`/api/log?after=${after}&limit=2`)).json()) as {
      entries: { seq: number }[];
      next: number | null;
    };
    expect(entries.length).toBeLessThanOrEqual(2);
    seqs.push(...entries.map(({ seq }) => seq));
    after = next;
  }
  expect(seqs).toEqual([1, 2, 3, 4, 5]);
});

test.each(['after=-1', 'after=x', 'limit=0', 'limit=1001', 'limit=1e3'])(
  'a page that cannot be (%s) is refused',
  async (query) => {
    const { ask } = await withPots(1);
    const answer = await ask(`/api/log?${query}`);
    expect(answer.status).toBe(400);
    expect(await answer.json()).toMatchObject({ code: 'bad-input', field: query.split('=')[0] });
  },
);

/** Reads events as they come. */
async function listen(answer: Response) {
  const reader = answer.body!.pipeThrough(new TextDecoderStream()).getReader();
  return { next: async () => (await reader.read()).value, stop: () => reader.cancel() };
}

test('who listens is told how the log stands, and of each append', async () => {
  const { ask, post, studio } = await withPots(2);
  const answer = await ask('/api/log/live');
  expect(answer.headers.get('content-type')).toMatch('text/event-stream');
  const events = await listen(answer);
  expect(await events.next()).toBe('data: {"count":2}\nid: 2\n\n');
  await post('/api/commands', put(1));
  expect(await events.next()).toBe('data: {"count":3}\nid: 3\n\n');
  await events.stop();
  await vi.waitFor(() => expect(studio.listening).toBe(0));
});

test('who was away is told of what came meanwhile, and not of what was known', async () => {
  const { ask, post } = await withPots(3);
  const behind = await listen(await ask('/api/log/live', { headers: { 'last-event-id': '1' } }));
  expect(await behind.next()).toContain('id: 3');
  await behind.stop();
  const current = await listen(await ask('/api/log/live', { headers: { 'last-event-id': '3' } }));
  const next = current.next();
  await post('/api/commands', put(1));
  expect(await next).toContain('id: 4');
  await current.stop();
});

test('a question about the stream that reads nothing leaves nothing behind', async () => {
  const { ask, studio } = smallApp();
  expect((await ask('/api/log/live', { method: 'HEAD' })).status).toBe(200);
  expect(studio.listening).toBe(0);
});

test('a quiet connection shows signs of life', async () => {
  vi.useFakeTimers();
  try {
    const { ask } = smallApp({ heartbeat: 20_000 });
    const events = await listen(await ask('/api/log/live'));
    expect(await events.next()).toContain('"count":0');
    const beat = events.next();
    await vi.advanceTimersByTimeAsync(20_000);
    expect(await beat).toBe(': still here\n\n');
    await events.stop();
  } finally {
    vi.useRealTimers();
  }
});

test('health tells how the log and each read model stand', async () => {
  const { ask } = await withPots(2);
  expect(await (await ask('/api/health')).json()).toEqual({
    ok: true,
    version: '0.1.0',
    instance: 'one',
    head: { count: 2, hash: '0'.repeat(64) },
    readModels: [{ plugin: 'shelf', checkpoint: 2 }],
  });
});
