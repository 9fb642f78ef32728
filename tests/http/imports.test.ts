import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { ImportRequest } from '../../server/http/services.ts';
import { temporary } from '../support/folder.ts';
import { smallApp } from './small-studio.ts';

const notebook = 'made,form,glazes\r\n2026-05-01,beaker,outside: Marram Green\r\n';
const csv = { 'content-type': 'text/csv' };

/** An import that remembers what it was asked and what the file held. */
function importing(outcome: () => unknown = () => ({ rows: 1, recorded: 1 })) {
  const asked: (Pick<ImportRequest, 'dryRun' | 'mapping'> & { text: string })[] = [];
  const folder = temporary('imports');
  const made = smallApp({
    folder,
    imports: {
      notebook: async ({ source, dryRun, mapping, progress }) => {
        asked.push({ dryRun, mapping, text: readFileSync(source, 'utf8') });
        progress(1, 1);
        return outcome();
      },
    },
  });
  const send = (path: string, body: BodyInit = notebook, headers: Record<string, string> = csv) =>
    made.ask(path, { method: 'POST', body, headers, duplex: 'half' } as RequestInit);
  return { ...made, asked, send, left: () => readdirSync(folder) };
}

test('a notebook is read as it was sent, and nothing of it is left lying about', async () => {
  const { send, asked, left } = importing();
  const answer = await send('/api/import/notebook');
  expect(await answer.json()).toEqual({ rows: 1, recorded: 1 });
  expect(asked).toEqual([{ dryRun: false, mapping: undefined, text: notebook }]);
  expect(left()).toEqual([]);
});

test('a preview is asked for by dry-run, and headings are mapped', async () => {
  const { send, asked } = importing();
  const mapping = encodeURIComponent(JSON.stringify({ 'Glazed with': 'glazes' }));
  await send(`/api/import/notebook?dry-run&mapping=${mapping}`);
  await send('/api/import/notebook?dry-run=true');
  await send('/api/import/notebook?dry-run=false');
  expect(asked.map(({ dryRun }) => dryRun)).toEqual([true, true, false]);
  expect(asked[0]!.mapping).toEqual({ 'Glazed with': 'glazes' });
});

test.each(['{', '[]', '{"a":1}', '"glazes"'])(
  'headings that are no mapping (%s) are refused before the file is read',
  async (mapping) => {
    const { send, asked } = importing();
    const answer = await send(`/api/import/notebook?mapping=${encodeURIComponent(mapping)}`);
    expect(answer.status).toBe(400);
    expect(await answer.json()).toMatchObject({ code: 'bad-mapping', field: 'mapping' });
    expect(asked).toEqual([]);
  },
);

test('a file over the limit is refused, whether it says so beforehand or not, and is not kept', async () => {
  const { send, asked, left } = importing();
  const large = notebook.padEnd(1_001, '\n');
  const told = await send('/api/import/notebook', large, { ...csv, 'content-length': String(large.length) });
  expect(told.status).toBe(413);
  const untold = await send('/api/import/notebook', new Blob([large]).stream());
  expect(untold.status).toBe(413);
  expect(await untold.json()).toMatchObject({
    code: 'too-large',
    detail: expect.stringContaining('split it'),
  });
  expect(asked).toEqual([]);
  expect(left()).toEqual([]);
});

test('a file of another kind is refused with what to do', async () => {
  const { send } = importing();
  const answer = await send('/api/import/notebook', notebook, {
    'content-type': 'application/vnd.oasis.opendocument.spreadsheet',
  });
  expect(answer.status).toBe(415);
  expect(await answer.json()).toMatchObject({ detail: expect.stringContaining('save the sheet as CSV') });
});

test('a file that breaks off on the way is refused whole', async () => {
  const { send, asked, left } = importing();
  const cut = new ReadableStream<Uint8Array>({
    pull(controller) {
      controller.enqueue(new TextEncoder().encode('made,form\n'));
      controller.error(new Error('connection lost'));
    },
  });
  const answer = await send('/api/import/notebook', cut);
  expect(answer.status).toBe(400);
  expect(await answer.json()).toMatchObject({ detail: expect.stringContaining('did not arrive whole') });
  expect(asked).toEqual([]);
  expect(left()).toEqual([]);
});

test('a long import is begun and looked at until it is done', async () => {
  const { send, ask, jobs } = importing();
  const begun = await send('/api/imports');
  expect(begun.status).toBe(202);
  const { job, state } = await begun.json();
  expect(state).toBe('running');
  await jobs.idle();
  expect(await (await ask(`/api/imports/${job}`)).json()).toEqual({
    job,
    kind: 'import notebook',
    state: 'done',
    done: 1,
    of: 1,
    result: { rows: 1, recorded: 1 },
  });
});

test('an import that fails says why, and its file is taken away', async () => {
  const { send, ask, jobs, left } = importing(() => {
    throw Object.assign(new Error('The log could not be written: disk full.'), { name: 'LogUnavailable' });
  });
  const { job } = await (await send('/api/imports')).json();
  await jobs.idle();
  const { state, problem } = await (await ask(`/api/imports/${job}`)).json();
  expect(state).toBe('failed');
  expect(problem).toMatchObject({
    code: 'log-unavailable',
    detail: 'The log could not be written: disk full.',
  });
  expect(left()).toEqual([]);
});

test('what no plugin imports is said not to be offered', async () => {
  const { send } = importing();
  const answer = await send('/api/imports?kind=orders');
  expect(answer.status).toBe(501);
  expect(await answer.json()).toMatchObject({
    code: 'not-offered',
    detail: 'No plugin here imports orders.',
  });
});

test('an import nobody began is not known', async () => {
  const { ask } = importing();
  expect((await ask('/api/imports/7')).status).toBe(404);
});
