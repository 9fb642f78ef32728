/**
 * The remote home: a libsql server over http, which several Wareboards may write. Each keeps an
 * outside head of its own.
 */
import { type Client, createClient } from '@libsql/client/http';
import type { Home } from '../home.ts';
import { LogDamaged } from '../log.ts';
import { readOutsideHead } from '../outside-head.ts';
import { MIGRATIONS } from '../schema.ts';
import { RemotePages } from './pages.ts';
import { RemoteReader } from './reader.ts';
import { RemoteWriter } from './writer.ts';

export interface RemoteHomeOptions {
  readonly url: string;
  readonly headFile: string;
  readonly authToken?: string;
}

export async function remoteHome({ url, headFile, authToken }: RemoteHomeOptions): Promise<Home> {
  const client = createClient({ url, authToken });
  await migrate(client);
  const writer = await RemoteWriter.open(client, headFile);
  return {
    write: (group, now) => writer.write(group, now),
    reader: new RemoteReader(client),
    pages: () => new RemotePages(client),
    readOutside: () => readOutsideHead(headFile),
    close: async () => {
      writer.close();
      client.close();
    },
  };
}

/** Another Wareboard may be doing the same: whoever comes second finds it done. */
async function migrate(client: Client): Promise<void> {
  for (;;) {
    const done = await versionOf(client);
    if (done > MIGRATIONS.length)
      throw new LogDamaged(
        `The log was written by a newer Wareboard (its tables are of version ${done}, this one knows ${MIGRATIONS.length}).`,
      );
    if (done === MIGRATIONS.length) return;
    try {
      await client.batch([...MIGRATIONS[done]!, `PRAGMA user_version = ${done + 1}`], 'write');
    } catch (error) {
      if ((await versionOf(client)) === done) throw error;
    }
  }
}

async function versionOf(client: Client): Promise<number> {
  const { rows } = await client.execute('PRAGMA user_version');
  return Number(rows[0]?.user_version ?? 0);
}
