/** `demo`: a made-up studio of two years, served from a folder that is thrown away afterwards. */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { withBar } from './progress.ts';
import { serveFolder } from './serve.ts';
import { type Verb, WrongWords } from './verb.ts';
import { exactly } from './words.ts';

export const demo: Verb = {
  name: 'demo',
  usage: 'demo',
  about: 'Serve a made-up studio of two years from a throw-away folder',
  async run(words, desk) {
    exactly(words, demo);
    const { parts, clock, terminal } = desk;
    const { demo: record } = parts;
    if (record === undefined) throw new WrongWords('There is no demo studio here.');
    if (words.text('data') !== undefined)
      throw new WrongWords('The demo has a folder of its own, and takes no --data.');
    const dir = await mkdtemp(join(tmpdir(), 'wareboard-demo-'));
    const today = clock().toISOString().slice(0, 10);
    try {
      await withBar(terminal, 'Making the demo studio', (progress) => record(dir, today, progress));
      return await serveFolder(dir, words, desk);
    } finally {
      await rm(dir, { recursive: true, force: true });
    }
  },
};
