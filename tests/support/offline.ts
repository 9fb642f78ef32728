/** Devices that note while they are offline, and the studio's real http app at the other end of a bad line. */
import 'fake-indexeddb/auto';
import { buildApp } from '../../server/http/app.ts';
import { Jobs } from '../../server/http/jobs.ts';
import { clockText } from '../../web/api/moments.ts';
import { type Database, openDatabase } from '../../web/device/database.ts';
import { lineTo } from '../../web/outbox/line.ts';
import { needsOf } from '../../web/outbox/needs.ts';
import { sendAll } from '../../web/outbox/sender.ts';
import { OutboxStore } from '../../web/outbox/store.ts';
import type { NewUnsent } from '../../web/outbox/unsent.ts';
import type { StudioHost } from './studio-host.ts';

export type Fetch = (address: string, init?: RequestInit) => Promise<Response>;

/** Asks the studio's app as its own page does; throws what a bug of its own throws. */
export function askApp({ host, dir }: Pick<StudioHost, 'host' | 'dir'>): Fetch {
  const app = buildApp({
    host,
    jobs: new Jobs(
      () => 'job',
      (error) => {
        throw error;
      },
    ),
    port: () => 4280,
    keeping: {
      instance: 'one',
      version: 'test',
      folder: dir,
      uploads: { folder: dir, limit: 1_000 },
      imports: {},
      backup: () => Promise.reject(new Error('no backups here')),
    },
    report: (error) => {
      throw error;
    },
  });
  return async (address, init = {}) =>
    app.request(address, {
      ...init,
      headers: {
        host: 'localhost:4280',
        'sec-fetch-site': 'same-origin',
        ...(init.headers as Record<string, string>),
      },
    });
}

let databases = 0;

export interface Noted {
  readonly id: string;
  readonly command: string;
  readonly input: object;
  readonly happenedAt?: string;
}

/** A phone with a clock of its own. */
export class Device {
  readonly store: OutboxStore;
  private readonly db: Promise<Database>;
  private readonly noted: Noted[] = [];

  /**
   * @param now what its clock shows, milliseconds
   * @param seen entries in the log when it last heard of the studio
   */
  constructor(
    readonly name: string,
    private readonly now: () => number,
    private readonly seen: number,
  ) {
    databases += 1;
    this.db = openDatabase(`device-${databases}`);
    this.store = new OutboxStore(() => this.db);
  }

  /** Nothing has been sent yet: all that was noted before is still there. */
  async note(order: Noted, at: number = this.now()): Promise<void> {
    const fresh: NewUnsent = {
      ...order,
      clock: clockText(new Date(at)),
      seen: this.seen,
      needs: needsOf(order, this.noted),
      sentence: order.command,
      where: '/',
    };
    this.noted.push(order);
    await this.store.add([fresh]);
  }

  /** One try at sending, over this line. */
  send(fetch: Fetch, count: () => number) {
    const line = lineTo({
      fetch,
      device: this.name,
      now: () => new Date(this.now()),
      files: this.store,
    });
    return sendAll(this.store, line, { settled: () => {}, watched: () => false, count });
  }
}
