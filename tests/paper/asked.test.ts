/** A plugin's paper, asked of the whole studio. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { z } from 'zod';
import { CONTRACT, definePlugin, PaperRefused, paper } from '../../server/contract/plugin.ts';
import { PLUGINS } from '../../server/manifest.ts';
import { lookAt } from '../support/looked-at.ts';
import { type StudioHost, studioHost } from '../support/studio-host.ts';

const slips = definePlugin({
  id: 'slips',
  contract: CONTRACT,
  about: 'Slips for who collects.',
  needs: ['studio'],
  prefixes: ['slip'],
  papers: {
    slip: paper({
      title: 'Collection slip',
      input: z.strictObject({ person: z.string(), shelf: z.coerce.number().int().min(1).default(1) }),
      run: async (ask, { person, shelf }) => {
        if (shelf > 9) throw new PaperRefused('There are nine shelves.', 'shelf');
        return {
          form: 'document',
          title: ['For ', { person }],
          file: 'slip',
          paper: 'A4',
          blocks: [{ block: 'paragraph', text: ['For ', { person }, `, shelf ${shelf}, on ${ask.today}`] }],
        };
      },
    }),
    'not-whole': paper({
      title: 'Described wrongly',
      input: z.strictObject({}),
      run: async () => ({ form: 'sheets', title: 'x', sheets: [{ width: -1, height: 20, marks: [] }] }),
    }),
    'no-picture': paper({
      title: 'A text called a picture',
      input: z.strictObject({}),
      run: async () => ({
        form: 'sheets',
        title: 'x',
        sheets: [
          {
            width: 100,
            height: 100,
            marks: [
              { mark: 'picture', x: 0, y: 0, width: 9, height: 9, type: 'image/png', base64: btoa('a text') },
            ],
          },
        ],
      }),
    }),
  },
});

let studio: StudioHost;
beforeAll(async () => {
  studio = await studioHost({ plugins: [...PLUGINS, slips] });
  await studio.tell({
    on: '2026-05-01',
    command: 'person.add',
    input: { person: 'mira', name: 'Мира Ткач' },
  } as never);
});
afterAll(() => studio.close());

test('names are filled in from the people, and the day is the studio’s', async () => {
  const { name, pdf } = await studio.host.paper('slips', 'slip', { person: 'mira', shelf: '3' });
  expect(name).toBe('slip.pdf');
  const seen = lookAt(pdf);
  expect(seen.text(0)).toContain('For Мира Ткач, shelf 3, on 2026-06-30');
  expect(seen.title).toBe('For Мира Ткач');
});

test('as it was on another day, it is dated so', async () => {
  const { pdf } = await studio.host.paper('slips', 'slip', { person: 'mira', 'as-at': '2026-05-02' });
  expect(lookAt(pdf).text(0)).toContain('on 2026-05-02');
});

test('a forgotten person is on no paper', async () => {
  await studio.tell({
    on: '2026-05-01',
    command: 'person.add',
    input: { person: 'ora', name: 'Ora Pell' },
  } as never);
  await studio.host.forget('ora', {
    id: '01980000-0000-7000-8000-00000000ffff',
    who: 'ansa',
    device: 'bench',
  });
  const { pdf } = await studio.host.paper('slips', 'slip', { person: 'ora' });
  expect(lookAt(pdf).text(0)).toContain('For (forgotten), shelf 1');
});

test.each([
  ['a plugin that is not there', ['slipz', 'slip'], {}, /There is no plugin “slipz”/],
  ['a paper that is not there', ['slips', 'slap'], {}, /“slips” has no paper “slap”. It has: slip, /],
  ['a value that does not fit', ['slips', 'slip'], { person: 'mira', shelf: 'x' }, /shelf: .*“x” was given/],
  ['what the plugin refuses', ['slips', 'slip'], { person: 'mira', shelf: '10' }, /nine shelves/],
  [
    'a paper described wrongly',
    ['slips', 'not-whole'],
    {},
    /“not-whole” of plugin “slips” failed.*sheets.0.width/,
  ],
  ['a picture that is none', ['slips', 'no-picture'], {}, /“no-picture” of plugin “slips” failed/],
] as const)('%s is told with a sentence', async (_what, [plugin, name], params, sentence) => {
  await expect(studio.host.paper(plugin, name, params)).rejects.toThrow(sentence);
});
