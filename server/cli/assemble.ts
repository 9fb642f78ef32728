/** Puts the command line together with the parts it works with. */
import { join } from 'node:path';
import { openHost } from '../host/open.ts';
import { PLUGINS } from '../manifest.ts';
import type { Parts } from './parts.ts';
import { findProject } from './project.ts';

const { root, version } = findProject();

export const parts: Parts = {
  version,
  openHost,
  plugins: PLUGINS,
  imports: {},
  web: join(root, 'dist', 'web'),
};
