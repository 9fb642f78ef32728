/** The peer: the general event-store library @event-driven-io/emmett-sqlite, doing the same work. */
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import type { Append } from '../../server/log/log.ts';

const HERE = fileURLToPath(new URL('.', import.meta.url));

type Library = typeof import('@event-driven-io/emmett-sqlite');

export interface PeerLibrary {
  readonly library: Library;
  /** Empty when the library runs on its own driver. */
  readonly remark: string;
}

export async function loadPeer(folder: string): Promise<PeerLibrary> {
  if (driverIsBuilt()) return { library: await import('@event-driven-io/emmett-sqlite'), remark: '' };
  const outfile = join(folder, 'peer.mjs');
  await build({
    stdin: { contents: `export * from '@event-driven-io/emmett-sqlite'`, resolveDir: HERE },
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    alias: { sqlite3: join(HERE, 'sqlite3-stand-in.ts') },
    external: ['libsql'],
    banner: {
      js: `import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);`,
    },
    logLevel: 'error',
  });
  const library = (await import(pathToFileURL(outfile).href)) as Library;
  const remark =
    'its driver sqlite3 needs an install script and is not built here, so it ran over libsql by a stand-in';
  return { library, remark };
}

function driverIsBuilt(): boolean {
  try {
    createRequire(import.meta.url)('sqlite3');
    return true;
  } catch {
    return false;
  }
}

export class Peer {
  private readonly store;
  private readonly file: string;

  constructor(
    private readonly library: Library,
    dir: string,
  ) {
    this.file = join(dir, 'peer.db');
    this.store = library.getSQLiteEventStore({ fileName: this.file });
  }

  async append({ entries }: Append): Promise<void> {
    const events = entries.map(({ name, data }) => ({ type: name, data: data as Record<string, unknown> }));
    await this.store.appendToStream(entries[0]!.streams[0]!, events);
  }

  async read(): Promise<number> {
    const connection = this.library.sqliteConnection({ fileName: this.file });
    let count = 0;
    let after = 0n;
    for (;;) {
      const page = await this.library.readMessagesBatch(connection, { after, batchSize: 1000 });
      count += page.messages.length;
      if (page.messages.length === 0) break;
      after = page.currentGlobalPosition;
    }
    connection.close();
    return count;
  }
}
