import { expect, test } from 'vitest';
import { smallApp } from './small-studio.ts';

test('a paper is answered as a PDF to look at, under its own name in any script', async () => {
  const answer = await smallApp().ask('/api/papers/shelf/label?glaze=Gannet+Grey&as-at=2026-05-01');
  expect(answer.status).toBe(200);
  expect(answer.headers.get('content-type')).toBe('application/pdf');
  expect(answer.headers.get('content-disposition')).toBe("inline; filename*=UTF-8''%C3%A9tiquette.pdf");
  expect(answer.headers.get('cache-control')).toBe('no-store');
  expect(await answer.text()).toBe('%PDF-1.7 {"glaze":"Gannet Grey","as-at":"2026-05-01"}');
});

test('and is sent as a file where it is to be kept', async () => {
  const answer = await smallApp().ask('/api/papers/shelf/label?save=yes');
  expect(answer.headers.get('content-disposition')).toMatch(/^attachment;/);
  expect(await answer.text()).toBe('%PDF-1.7 {}');
});

test.each([
  ['a paper that no plugin offers', '/api/papers/shelf/poster', 404, 'unknown-paper', /It has: label/],
  [
    'what the paper does not know',
    '/api/papers/shelf/label?clay=x',
    400,
    'unknown-parameter',
    /does not know clay/,
  ],
  ['what cannot be printed', '/api/papers/shelf/label?glaze=none', 422, 'not-printable', /no glaze to put/],
])('%s is refused with a sentence', async (_what, path, status, code, sentence) => {
  const { ask, told } = smallApp();
  const answer = await ask(path);
  expect(answer.status).toBe(status);
  expect(answer.headers.get('content-type')).toMatch('application/problem+json');
  expect(await answer.json()).toMatchObject({ code, detail: expect.stringMatching(sentence) });
  expect(told).toEqual([]);
});

test('opened from a link, the sentence alone is shown', async () => {
  const accept = 'text/html,application/xhtml+xml';
  const answer = await smallApp().ask('/api/papers/shelf/label?glaze=none', { headers: { accept } });
  expect(answer.status).toBe(422);
  expect(answer.headers.get('content-type')).toBe('text/plain; charset=utf-8');
  expect(await answer.text()).toBe('There is no glaze to put on the label.\n');
});

test('the plugins tell which papers they offer and what each asks for', async () => {
  const { plugins } = await (await smallApp().ask('/api/plugins')).json();
  expect(plugins[0].papers).toMatchObject([
    {
      paper: 'label',
      title: 'Label of the shelf',
      listed: true,
      input: { properties: { glaze: { type: 'string' } } },
    },
  ]);
  const { paths } = await (await smallApp().ask('/api/openapi.json')).json();
  expect(paths['/api/papers/shelf/label'].get.parameters.map(({ name }: { name: string }) => name)).toEqual([
    'save',
    'as-at',
    'known-at',
    'glaze',
  ]);
});
