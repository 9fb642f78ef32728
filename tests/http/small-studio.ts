/** A studio small enough to see through: its log is a list, and one plugin knows one command and two reports. */
import { randomUUID } from 'node:crypto';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { z } from 'zod';
import type { Entry } from '../../server/contract/entry.ts';
import {
  CONTRACT,
  command,
  definePlugin,
  PaperRefused,
  paper,
  type Report,
  report,
} from '../../server/contract/plugin.ts';
import { refuse } from '../../server/contract/streams.ts';
import { Documents } from '../../server/files/documents.ts';
import { Pictures } from '../../server/files/pictures.ts';
import { Files } from '../../server/files/store.ts';
import type { Host, Order, Outcome } from '../../server/host/host.ts';
import { buildRegistry } from '../../server/host/registry.ts';
import { buildApp } from '../../server/http/app.ts';
import { Jobs } from '../../server/http/jobs.ts';
import type { Import, Keeping } from '../../server/http/services.ts';
import type { EventLog, Head } from '../../server/log/log.ts';
import type { Network } from '../../server/network/network.ts';
import { parseParams } from '../../server/readmodels/params.ts';

const pots = report({
  title: 'Pots on the shelf',
  input: z.strictObject({ glaze: z.string().optional(), least: z.coerce.number().optional() }),
  run: async () => ({ sentence: '', rows: [], notes: [], figures: [] }),
});

const label = paper({
  title: 'Label of the shelf',
  input: z.strictObject({ glaze: z.string().optional() }),
  run: async () => ({ form: 'document', title: 'Shelf', paper: 'A4', blocks: [] }),
});

const shelf = definePlugin({
  id: 'shelf',
  contract: CONTRACT,
  about: 'Counts what stands on the shelf.',
  needs: [],
  prefixes: ['pot'],
  commands: {
    'pot.put': command({
      title: 'Put pots on the shelf',
      input: z.strictObject({ count: z.number().int().min(1), glaze: z.string() }),
      streams: () => ['pot:shelf'],
      decide: () => [],
    }),
  },
  reports: {
    pots,
    broken: report({
      title: 'A report that fails',
      input: z.strictObject({}),
      run: async () => ({ sentence: '', rows: [], notes: [], figures: [] }),
    }),
  },
  papers: { label },
});

type Put = { count: number; glaze: string };

export class SmallStudio {
  readonly entries: Entry[] = [];
  readonly forgotten: string[] = [];
  readonly rebuilt: (string | undefined)[] = [];
  /** Thrown by the next command instead of recording it. */
  trouble: Error | undefined;
  private readonly listeners = new Set<(head: Head) => void>();
  readonly registry = buildRegistry([shelf]);
  pictures = new Pictures(new Files(join(tmpdir(), 'wareboard-no-pictures')), tmpdir());

  get host(): Host {
    return {
      registry: this.registry,
      log: this.log as EventLog,
      people: {} as Host['people'],
      pictures: this.pictures,
      documents: new Documents(this.pictures.files),
      clearUnspoken: async () => 0,
      verify: async (progress) => ({
        ...(await this.log.verify!(progress)),
        files: { kept: 0, erased: 0, missing: [], changed: [] },
      }),
      settings: async () => ({
        studio: 'Hollin Yard Pottery',
        zone: 'Europe/London',
        currency: 'GBP',
        yearStart: '01-01',
      }),
      record: (order) => this.record(order),
      recordAll: async (orders) => {
        const outcomes: Outcome[] = [];
        for (const order of orders) outcomes.push(await this.record(order));
        return outcomes;
      },
      foresee: async () => [],
      report: async (_plugin, name, params) => this.report(name, params),
      paper: async (_plugin, name, params) => this.paper(name, params),
      handout: async () => ({ today: '2026-06-30' }),
      givenPapers: async () => [],
      story: async () => [],
      rebuild: async (plugin) => {
        this.rebuilt.push(plugin);
      },
      day: async () => ({ streams: [], failed: [] }),
      standing: async () => [{ plugin: 'shelf', checkpoint: this.entries.length }],
      forget: async (person, { id }) => {
        if (person === 'nobody')
          return {
            outcome: 'refused',
            id,
            refusal: refuse('no-such-person', 'There is no such person.', 'person'),
          };
        this.forgotten.push(person);
        return { outcome: 'unchanged', id };
      },
      close: async () => {},
    };
  }

  private get head(): Head {
    return { count: this.entries.length, hash: '0'.repeat(64) };
  }

  private readonly log: Partial<EventLog> = {
    read: async (after, limit) => this.entries.filter(({ seq }) => seq > after).slice(0, limit),
    head: async () => this.head,
    verify: async (progress) => {
      progress?.(this.entries.length, this.entries.length);
      return { entries: this.entries.length, head: this.head };
    },
    onAppended: (listener) => {
      this.listeners.add(listener);
      return () => this.listeners.delete(listener);
    },
  };

  get listening(): number {
    return this.listeners.size;
  }

  private async record({
    id,
    command: name,
    input,
    who,
    device,
    happenedAt = '2026-05-01',
  }: Order): Promise<Outcome> {
    if (this.trouble !== undefined) throw this.trouble;
    if (name !== 'pot.put')
      return {
        outcome: 'refused',
        id,
        refusal: refuse('no-such-command', `There is no command “${name}” in this studio.`, 'command'),
      };
    const { count, glaze } = input as Put;
    if (count > 100)
      return {
        outcome: 'refused',
        id,
        refusal: { ...refuse('shelf-full', 'The shelf holds 100 pots at most.', 'count'), others: [] },
      };
    const seq = this.entries.length + 1;
    this.entries.push({
      seq,
      command: id,
      part: 0,
      name: 'pot.put',
      version: 1,
      happenedAt,
      recordedAt: '2026-05-01T09:15:00.000Z',
      who,
      device,
      streams: ['pot:shelf'],
      data: { count, glaze },
    });
    for (const listener of this.listeners) listener(this.head);
    return { outcome: 'recorded', id, first: seq, last: seq };
  }

  private paper(name: string, params: Readonly<Record<string, string>>) {
    if (name !== 'label')
      throw Object.assign(new Error(`“shelf” has no paper “${name}”. It has: label.`), {
        name: 'UnknownPaper',
      });
    parseParams(label, params);
    if (params.glaze === 'none') throw new PaperRefused('There is no glaze to put on the label.', 'glaze');
    return { name: 'étiquette.pdf', pdf: new TextEncoder().encode(`%PDF-1.7 ${JSON.stringify(params)}`) };
  }

  private report(name: string, params: Readonly<Record<string, string>>) {
    if (name === 'pots') parseParams(pots as Report, params);
    if (name === 'broken')
      throw Object.assign(new Error('The report shelf broken could not be worked out: no shelf.'), {
        name: 'ReportFailed',
      });
    const rows = this.entries.map(({ data }) => ({ ...(data as Put) }));
    return {
      report: name,
      from: params['as-at'] ?? null,
      to: null,
      sentence: 'What stands on the shelf.',
      rows,
      notes: [JSON.stringify(params)],
      figures: [],
    };
  }
}

export interface Made {
  readonly studio: SmallStudio;
  readonly jobs: Jobs;
  readonly told: Error[];
  /** Asks as it is told to. */
  plain(path: string, init?: RequestInit): Promise<Response>;
  /** Asks as Wareboard's own page does. */
  ask(path: string, init?: RequestInit): Promise<Response>;
  post(path: string, body: unknown, headers?: Record<string, string>): Promise<Response>;
}

export function smallApp(
  changed: {
    imports?: Record<string, Import>;
    limit?: number;
    folder?: string;
    web?: string;
    backup?: Keeping['backup'];
    heartbeat?: number;
    /** With it, it is asked from the network. */
    network?: Network;
    pictures?: Pictures;
  } = {},
): Made {
  const studio = new SmallStudio();
  if (changed.pictures) studio.pictures = changed.pictures;
  const told: Error[] = [];
  const report = (error: Error) => void told.push(error);
  const jobs = new Jobs(randomUUID, report);
  const app = buildApp({
    host: studio.host,
    jobs,
    report,
    port: () => 4280,
    networkNames: changed.network && (() => ['hollin-laptop.local', '192.168.1.7']),
    web: changed.web,
    heartbeat: changed.heartbeat,
    keeping: {
      instance: 'one',
      version: '0.1.0',
      folder: 'data',
      uploads: { folder: changed.folder ?? tmpdir(), limit: changed.limit ?? 1_000 },
      imports: changed.imports ?? {},
      network: changed.network,
      backup: changed.backup ?? (async () => ({ folder: 'none', entries: 0 })),
    },
  });
  const plain = async (path: string, init: RequestInit = {}) =>
    app.request(path, {
      ...init,
      headers: { host: 'localhost:4280', ...(init.headers as Record<string, string>) },
    });
  const ask = (path: string, init: RequestInit = {}) =>
    plain(path, {
      ...init,
      headers: { 'sec-fetch-site': 'same-origin', ...(init.headers as Record<string, string>) },
    });
  const post = (path: string, body: unknown, headers: Record<string, string> = {}) =>
    ask(path, {
      method: 'POST',
      body: JSON.stringify(body),
      headers: { 'content-type': 'application/json', ...headers },
    });
  return { studio, jobs, told, plain, ask, post };
}

let made = 0;
/** An order of pots, each with an id of its own. */
export const put = (count: number, glaze = 'Marram Green') => ({
  id: `01970000-0000-7000-8000-${String(++made).padStart(12, '0')}`,
  command: 'pot.put',
  input: { count, glaze },
});
