/** Makes worker.js when the page is built: the worker with the list of all files of the page in it. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { transformSync } from 'esbuild';
import type { Plugin } from 'vite';

const NAME = 'worker.js';

export function makeWorker(): Plugin {
  let folder = '';
  return {
    name: 'wareboard-worker',
    apply: 'build',
    configResolved: ({ root, build }) => {
      folder = join(root, build.outDir);
    },
    closeBundle: () => {
      const files = (readdirSync(folder, { recursive: true }) as string[])
        .map((name) => name.replaceAll('\\', '/'))
        .filter((name) => name !== NAME && statSync(join(folder, name)).isFile())
        .sort();
      const version = createHash('sha256');
      for (const name of files) version.update(name).update(readFileSync(join(folder, name)));
      const source = readFileSync(join(import.meta.dirname, 'worker.ts'), 'utf8');
      const { code } = transformSync(source, {
        loader: 'ts',
        format: 'iife',
        target: 'es2022',
        minify: true,
        define: {
          FILES: JSON.stringify(files.map((name) => `/${name}`)),
          VERSION: JSON.stringify(version.digest('hex').slice(0, 12)),
        },
      });
      writeFileSync(join(folder, NAME), code);
    },
  };
}
