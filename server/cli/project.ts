/** Where Wareboard itself is, whether it runs from source or bundled. */
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export interface Project {
  readonly root: string;
  readonly version: string;
}

export function findProject(from = dirname(fileURLToPath(import.meta.url))): Project {
  const path = join(from, 'package.json');
  if (existsSync(path)) {
    const { name, version } = JSON.parse(readFileSync(path, 'utf8')) as { name?: string; version?: string };
    if (name === 'wareboard') return { root: from, version: version ?? '0' };
  }
  const above = dirname(from);
  if (above === from) throw new Error('Wareboard’s own folder is not to be found.');
  return findProject(above);
}
