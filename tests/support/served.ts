/** The real server over a data folder of its own, with the page as it was built. */
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Host } from '../../server/host/host.ts';
import { serve } from '../../server/http/serve.ts';
import type { ImportRequest } from '../../server/http/services.ts';
import { importNotebook } from '../../server/import/notebook/import.ts';
import { PLUGINS } from '../../server/manifest.ts';
import { NETWORK, Network } from '../../server/network/network.ts';
import { openHost } from '../../server/open-host.ts';
import { BookInFolder } from '../../server/timed/book.ts';
import { PluginJobs } from '../../server/timed/jobs.ts';
import { SecretsFile } from '../../server/timed/secrets.ts';
import { laptop } from '../network/laptop.ts';
import { NOW } from './browser.ts';

export interface Served {
  readonly host: Host;
  readonly address: string;
  /** Where a phone finds it, when it was opened for the network. */
  readonly network?: { readonly address: string; readonly trust: string; readonly kept: Network };
  close(): Promise<void>;
}

const web = new URL('../../dist/web', import.meta.url).pathname;

/** What lets a phone in; the hash is a quick one. */
export const PASSPHRASE = 'marram over cuttle, twice';

/** @param options.network opened for the network as well, behind PASSPHRASE; 'no passphrase': as soon as one is set */
export async function openServed(options: { network?: boolean | 'no passphrase' } = {}): Promise<Served> {
  if (!existsSync(join(web, 'index.html')))
    throw new Error('The page is not built yet: run `npm run build` first.');
  const dir = mkdtempSync(join(tmpdir(), 'wareboard-seen-'));
  const clock = () => NOW;
  const host = await openHost({ dir, plugins: PLUGINS, clock });
  const network = new Network({
    folder: join(dir, NETWORK),
    // A certificate is good only at the real time.
    clock: () => new Date(),
    machine: () => laptop(),
    asked: options.network !== undefined,
    cost: { N: 2 ** 10, r: 8, p: 1 },
  });
  // Nothing is done by itself here, but all of it when it is asked for.
  const timed = new PluginJobs({
    host,
    clock,
    after: () => () => {},
    secrets: new SecretsFile(dir),
    book: new BookInFolder(dir),
    report: (error) => {
      throw error;
    },
  });
  const keeping = {
    network,
    timed,
    instance: 'browser-tests',
    version: 'test',
    folder: dir,
    uploads: { folder: join(dir, 'incoming'), limit: 16 * 1024 * 1024 },
    imports: { notebook: (asked: ImportRequest) => importNotebook({ ...asked, now: clock }) },
    backup: () => Promise.reject(new Error('no backups in browser tests')),
  };
  const { address, openNetwork, close } = await serve({ host, keeping, web }, 0);
  if (options.network === true) await network.setPassphrase(PASSPHRASE);
  let opened: Served['network'];
  const open = async () => {
    const { https, trust } = await openNetwork({ https: 0, trust: 0 });
    opened = {
      address: `https://localhost:${https}`,
      trust: `http://127.0.0.1:${trust}`,
      kept: network,
    };
  };
  if (options.network === true) await open();
  if (options.network === 'no passphrase') network.whenReady(() => void open());
  return {
    host,
    address,
    get network() {
      return opened;
    },
    close: async () => {
      await close();
      await host.close();
      rmSync(dir, { recursive: true, force: true });
    },
  };
}
