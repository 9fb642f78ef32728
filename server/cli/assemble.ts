/** Puts the command line together with the parts it works with. */
import { join } from 'node:path';
import { makeDemo } from '../demo/fill.ts';
import { importNotebook } from '../import/notebook/import.ts';
import { PLUGINS } from '../manifest.ts';
import { openHost } from '../open-host.ts';
import type { Parts } from './parts.ts';
import { findProject } from './project.ts';

const { root, version } = findProject();

export const parts: Parts = {
  version,
  openHost,
  plugins: PLUGINS,
  imports: { notebook: importNotebook },
  web: join(root, 'dist', 'web'),
  demo: (dir, today, progress) => makeDemo(dir, PLUGINS, today, progress),
};
