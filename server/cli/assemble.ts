/** Puts the command line together with the parts it works with. */
import { join } from 'node:path';
import { demoDays } from '../demo/demo.ts';
import { openHost } from '../host/open.ts';
import { importNotebook } from '../import/notebook/import.ts';
import { PLUGINS } from '../manifest.ts';
import type { Parts } from './parts.ts';
import { findProject } from './project.ts';

const { root, version } = findProject();

export const parts: Parts = {
  version,
  openHost,
  plugins: PLUGINS,
  imports: { notebook: importNotebook },
  web: join(root, 'dist', 'web'),
  async demo(dir, today, progress) {
    let now = new Date();
    const host = await openHost({ dir, clock: () => now, thread: false, plugins: PLUGINS });
    try {
      const days = demoDays(today);
      for (const [at, { recordedAt, orders }] of days.entries()) {
        now = new Date(recordedAt);
        await host.recordAll(orders);
        progress(at + 1, days.length);
      }
    } finally {
      await host.close();
    }
  },
};
