import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { PAGES, REFERENCE } from '../../docs/reference.ts';
import { VERBS } from '../../server/cli/verbs.ts';
import { hostPlugin } from '../../server/host/strike-events.ts';
import { PLUGINS } from '../../server/manifest.ts';
import { MOVES } from '../../server/studio/piece/moves.ts';

const read = (name: string) => readFileSync(`${REFERENCE}${name}`, 'utf8');
const headings = (name: string) => [...read(name).matchAll(/^## (.+)$/gm)].map((found) => found[1]!);
const all = [hostPlugin, ...PLUGINS];

describe('the reference', () => {
  it.each(Object.keys(PAGES))(
    'says in %s what the code says (node --import tsx docs/reference.ts)',
    (name) => {
      expect(read(name)).toBe(PAGES[name]!());
    },
  );

  it('has every command', () => {
    expect(headings('commands.md')).toEqual(all.flatMap((plugin) => Object.keys(plugin.commands ?? {})));
  });

  it('has every event', () => {
    expect(headings('events.md')).toEqual(all.flatMap((plugin) => Object.keys(plugin.events ?? {})));
  });

  it('has every report', () => {
    const reports = PLUGINS.flatMap(({ id, reports: its }) =>
      Object.keys(its ?? {}).map((name) => `${id} ${name}`),
    );
    expect(headings('reports.md')).toEqual(reports);
  });

  it('has every paper', () => {
    const papers = PLUGINS.flatMap(({ id, papers: its }) =>
      Object.keys(its ?? {}).map((name) => `${id} ${name}`),
    );
    expect(headings('papers.md')).toEqual(papers);
  });

  it('has every move and every verb of the command line', () => {
    for (const { move } of Object.values(MOVES)) expect(read('moves.md')).toContain(`| ${move} |`);
    for (const { name } of VERBS) expect(read('command-line.md')).toContain(`| \`${name}`);
  });

  it('says of every field what it takes', () => {
    for (const page of ['commands.md', 'events.md', 'reports.md', 'papers.md'])
      expect(read(page)).not.toMatch(/\| (undefined|object|) \| {2}\|$/m);
  });
});
