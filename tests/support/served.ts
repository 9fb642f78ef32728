/** The real server over a data folder of its own, with the page as it was built. */
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Host } from '../../server/host/host.ts';
import { serve } from '../../server/http/serve.ts';
import type { ImportRequest } from '../../server/http/services.ts';
import { importNotebook } from '../../server/import/notebook/import.ts';
import { PLUGINS } from '../../server/manifest.ts';
import { openHost } from '../../server/open-host.ts';
import { NOW } from './browser.ts';

export interface Served {
  readonly host: Host;
  readonly address: string;
  close(): Promise<void>;
}

const web = new URL('../../dist/web', import.meta.url).pathname;

export async function openServed(): Promise<Served> {
  if (!existsSync(join(web, 'index.html')))
    throw new Error('The page is not built yet: run `npm run build` first.');
  const dir = mkdtempSync(join(tmpdir(), 'wareboard-seen-'));
  const clock = () => NOW;
  const host = await openHost({ dir, plugins: PLUGINS, clock });
  const keeping = {
    instance: 'browser-tests',
    version: 'test',
    folder: dir,
    uploads: { folder: join(dir, 'incoming'), limit: 16 * 1024 * 1024 },
    imports: { notebook: (asked: ImportRequest) => importNotebook({ ...asked, now: clock }) },
    backup: () => Promise.reject(new Error('no backups in browser tests')),
  };
  const { address, close } = await serve({ host, keeping, web }, 0);
  return {
    host,
    address,
    close: async () => {
      await close();
      await host.close();
      rmSync(dir, { recursive: true, force: true });
    },
  };
}
