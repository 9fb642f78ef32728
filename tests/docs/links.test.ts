import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../../', import.meta.url));
const read = (path: string) => readFileSync(join(root, path), 'utf8');

function pagesUnder(folder: string): string[] {
  return readdirSync(join(root, folder), { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return pagesUnder(path);
    return entry.name.endsWith('.md') ? [path] : [];
  });
}

const pages = ['README.md', 'DEVELOPERS.md', ...pagesUnder('docs'), ...pagesUnder('plugins')];

const linksOf = (page: string) =>
  [...read(page).matchAll(/\]\(([^)#\s]+)[^)]*\)/g)]
    .map((found) => found[1]!)
    .filter((link) => !/^[a-z]+:/.test(link))
    .map((link) => relative(root, join(root, dirname(page), link)));

describe('the docs', () => {
  it.each(pages)('lead from %s only to what is there', (page) => {
    for (const link of linksOf(page)) expect(existsSync(join(root, link)), link).toBe(true);
  });

  it('can all be come to from the README, in a few steps', () => {
    const seen = new Set(['README.md']);
    for (const page of seen) {
      if (!page.endsWith('.md')) continue;
      for (const link of linksOf(page)) seen.add(link);
    }
    const folders = [...seen].filter(
      (path) => existsSync(join(root, path)) && statSync(join(root, path)).isDirectory(),
    );
    const missed = pages.filter(
      (page) =>
        page.startsWith('docs/') &&
        !seen.has(page) &&
        !folders.some((folder) => page.startsWith(`${folder}/`)),
    );
    expect(missed).toEqual([]);
  });
});

describe('the README', () => {
  const readme = read('README.md');

  it('states the job in one paragraph, then how to start and how to test', () => {
    const [title, job, start] = readme.split(/\n\n/);
    expect(title).toBe('# Wareboard');
    expect(job).toMatch(/^A studio potter /);
    expect(start).toBe('```\nnpm ci && npm start\nnpm ci && npm test\n```');
  });

  it('and the other pages show every picture that is kept, each once, and they are small', () => {
    const shown = pages.flatMap(linksOf).filter((link) => link.endsWith('.png'));
    const kept = readdirSync(join(root, 'docs/pictures')).map((name) => `docs/pictures/${name}`);
    expect(shown.toSorted()).toEqual(kept.toSorted());
    const taken = read('docs/pictures.ts');
    for (const picture of kept) expect(taken).toContain(`'${picture.replace(/^.*\/|-[a-z]+\.png$/g, '')}'`);
    for (const picture of kept) expect(statSync(join(root, picture)).size, picture).toBeLessThan(150_000);
  });
});

describe('the contributor’s guide', () => {
  it('names only scripts that are there', () => {
    const { scripts } = JSON.parse(read('package.json')) as { scripts: Record<string, string> };
    const named = [...read('DEVELOPERS.md').matchAll(/npm (?:run (?:-s )?)?([a-z]+)/g)].map(
      (found) => found[1]!,
    );
    for (const script of named.filter((name) => name !== 'ci'))
      expect(Object.keys(scripts)).toContain(script);
  });

  it('names only files and folders that are there', () => {
    const named = [...read('DEVELOPERS.md').matchAll(/`((?:server|plugins|web|tests|docs)\/[\w./-]+)`/g)];
    expect(named.length).toBeGreaterThan(8);
    for (const [, path] of named) expect(existsSync(join(root, path!)), path).toBe(true);
  });
});
