import { HttpResponse, http } from 'msw';
import { setupServer } from 'msw/node';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { throughServer } from '../../server/cli/through-server.ts';

const ADDRESS = 'http://127.0.0.1:4280';
const server = setupServer();
beforeAll(() => server.listen({ onUnhandledRequest: 'error' }));
afterEach(() => server.resetHandlers());
afterAll(() => server.close());

const at = throughServer(ADDRESS, { clock: () => new Date('2026-05-01T09:15:00.000Z') }, 0);
const pots = () => at.report('shelf', 'pots', {});
const answering = (path: string, response: () => Response) =>
  server.use(http.all(`${ADDRESS}${path}`, response));

test('what the server refuses is told in its own sentence', async () => {
  answering('/api/reports/shelf/pots', () =>
    HttpResponse.json(
      { code: 'log-damaged', detail: 'Entry 7 does not fit.' },
      { status: 503, headers: { 'content-type': 'application/problem+json' } },
    ),
  );
  await expect(pots()).rejects.toThrow('Entry 7 does not fit.');
});

test('a failure without a sentence is told by its status', async () => {
  answering('/api/reports/shelf/pots', () => new HttpResponse('<h1>Bad gateway</h1>', { status: 502 }));
  await expect(pots()).rejects.toThrow(`Wareboard at ${ADDRESS} answered with status 502.`);
});

test('something else that answers at the address is not taken for Wareboard', async () => {
  answering(
    '/api/reports/shelf/pots',
    () => new HttpResponse('<!doctype html><title>Another program</title>'),
  );
  await expect(pots()).rejects.toThrow(/is not Wareboard: <!doctype html>/);
});

test('a connection that is refused says that nothing more was done', async () => {
  answering('/api/reports/shelf/pots', () => HttpResponse.error());
  await expect(pots()).rejects.toThrow(/could not be reached.*Nothing more was done\./);
});

test('an answer that breaks off says to look before doing it again', async () => {
  answering('/api/admin/forget', () => {
    const cut = new ReadableStream({
      start(controller) {
        controller.enqueue(new TextEncoder().encode('{"outcome":'));
        controller.error(new Error('socket hang up'));
      },
    });
    return new HttpResponse(cut, { headers: { 'content-type': 'application/json' } });
  });
  await expect(at.forget('p-17')).rejects.toThrow(
    /broke off.*Look whether it was done before doing it again\./,
  );
});

test('long work is looked at until it is done, and its progress is passed on', async () => {
  const states = [
    { job: 'j', state: 'running', done: 10, of: 30 },
    { job: 'j', state: 'running', done: 20, of: 30 },
    { job: 'j', state: 'done', done: 30, of: 30, result: { entries: 30 } },
  ];
  answering('/api/admin/verify', () => HttpResponse.json(states[0], { status: 202 }));
  let look = 0;
  answering('/api/jobs/j', () => HttpResponse.json(states[++look]));
  const seen: [number, number][] = [];
  expect(await at.verify((done, of) => seen.push([done, of]))).toEqual({ entries: 30 });
  expect(seen).toEqual([
    [10, 30],
    [20, 30],
  ]);
});

test('long work that fails is told with the reason', async () => {
  answering('/api/admin/rebuild', () =>
    HttpResponse.json({ job: 'j', state: 'running', done: 0, of: 0 }, { status: 202 }),
  );
  answering('/api/jobs/j', () =>
    HttpResponse.json({
      job: 'j',
      state: 'failed',
      done: 0,
      of: 0,
      problem: { code: 'work-failed', detail: 'The plugin shelf failed.' },
    }),
  );
  await expect(at.rebuild('shelf', () => {})).rejects.toThrow('The plugin shelf failed.');
});

test('a server that forgets the work it began is told as such', async () => {
  answering('/api/admin/verify', () =>
    HttpResponse.json({ job: 'j', state: 'running', done: 0, of: 0 }, { status: 202 }),
  );
  answering('/api/jobs/j', () =>
    HttpResponse.json({ code: 'unknown-job', detail: 'There is no such piece of work.' }, { status: 404 }),
  );
  await expect(at.verify(() => {})).rejects.toThrow('There is no such piece of work.');
});
