import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { EXAMPLE, exampleNotebook } from '../../docs/examples/notebook.ts';
import { demoNotebook } from '../../server/demo/notebook.ts';
import { importNotebook } from '../../server/import/notebook/import.ts';
import { type StudioHost, studioHost } from '../support/studio-host.ts';

describe("the demo studio's notebook", () => {
  let studio: StudioHost;
  beforeAll(async () => {
    studio = await studioHost();
  });
  afterAll(() => studio.close());

  const bring = (text: string) =>
    importNotebook({
      host: studio.host,
      source: new TextEncoder().encode(text),
      who: 'ansa',
      device: 'laptop',
      now: () => new Date('2026-06-30T12:00:00Z'),
    });

  it('is the one in docs/examples, to the letter', () => {
    expect(readFileSync(EXAMPLE, 'utf8')).toBe(exampleNotebook());
  });

  it('has about 40 rows, with seconds, wasters, repairs and ware that has left', () => {
    const rows = exampleNotebook().trim().split('\r\n').slice(1);
    expect(rows.length).toBeGreaterThan(35);
    expect(rows.length).toBeLessThan(45);
    for (const word of ['second', 'waster', 'pinholes@', 'sold ', ' > '])
      expect(rows.join('\n')).toContain(word);
  });

  it('comes into an empty studio without a bad row, and a second time records nothing', async () => {
    const notebook = demoNotebook('2026-05-04');
    const first = await bring(notebook);
    expect(first.bad).toEqual([]);
    expect(first.recorded).toBeGreaterThan(300);
    expect(first.added.kilns).toContain('Big Round');
    const again = await bring(notebook);
    expect(again).toMatchObject({ bad: [], recorded: 0, struck: 0 });
  });
});
