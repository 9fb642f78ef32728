/** Puts the running studio together: log, erasable store, recorder, read models. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Plugin } from './contract/plugin.ts';
import { Documents } from './files/documents.ts';
import { Pictures } from './files/pictures.ts';
import { FILES, Files } from './files/store.ts';
import { filesOf, keptElsewhere, verifyFiles } from './host/files.ts';
import type { Host } from './host/host.ts';
import { makeRecorder } from './host/record.ts';
import { buildRegistry } from './host/registry.ts';
import { keepSettings } from './host/settings.ts';
import { clearUnspoken } from './host/unspoken.ts';
import type { Clock } from './log/log.ts';
import { openLog } from './log/open.ts';
import { openPeople } from './people/store.ts';
import { PaperFailed } from './readmodels/papers.ts';
import { openReadModels, type ReadModelsOptions } from './readmodels/readmodels.ts';

export interface HostOptions {
  /** The data folder: log, erasable store, read models; made if it is not there. */
  readonly dir: string;
  readonly plugins: readonly Plugin[];
  /** A libsql server that holds the log instead of a file in `dir`. */
  readonly url?: string;
  readonly authToken?: string;
  /** Write on a thread of its own. Default: in this process. */
  readonly thread?: boolean;
  readonly clock?: Clock;
  /** For tests. */
  readonly sizes?: ReadModelsOptions['sizes'];
}

export async function openHost(options: HostOptions): Promise<Host> {
  const { dir, plugins, url, authToken, thread, sizes, clock = () => new Date() } = options;
  mkdirSync(dir, { recursive: true });
  const registry = buildRegistry(plugins);
  const log = await (url
    ? openLog({ url, clock, headFile: join(dir, 'log.head'), authToken })
    : openLog({ dir, clock, thread }));
  const people = openPeople(join(dir, 'people.db'));
  const pictures = new Pictures(new Files(join(dir, FILES)), join(dir, 'small'));
  const { settings, stop } = keepSettings(registry, log);
  const recorder = makeRecorder({ registry, log, people, files: pictures.files, clock, settings });
  const models = await openReadModels({
    registry,
    log,
    people,
    picture: (sha256) => pictures.forPaper(sha256),
    dir: join(dir, 'read'),
    settings,
    clock,
    sizes,
  });

  const host: Host = {
    registry,
    log,
    people,
    pictures,
    documents: new Documents(pictures.files),
    settings,
    record: (order) => recorder.record(order),
    recordAll: async (orders, progress) => {
      const letGo = models.hold();
      try {
        return await recorder.recordAll(orders, progress);
      } finally {
        letGo();
      }
    },
    foresee: (orders) => recorder.foresee(orders),
    report: (plugin, report, params) => models.report(plugin, report, params),
    paper: async (plugin, paper, params) => {
      const described = await models.paper(plugin, paper, params);
      // Fonts and PDF are only read where something is printed.
      const { printPaper } = await import('./paper/print.ts');
      return printPaper(described, (cause) => new PaperFailed(plugin, paper, cause), `${plugin}-${paper}`);
    },
    handout: (plugin, handout, key) => models.handout(plugin, handout, key),
    givenPapers: () => models.givenPapers(),
    story: (stream, past) => models.story(stream, past),
    rebuild: (plugin, progress) => models.rebuild(plugin, progress),
    day: () => models.day(),
    standing: () => models.standing(),
    forget: async (person, order) => {
      const outcome = await recorder.record({ ...order, command: 'person.forget', input: { person } });
      if (outcome.outcome === 'refused') return outcome;
      // Erased after it is recorded: where this is cut off, forgetting again finishes it.
      const streams = await models.concerning(person);
      const told = [...(await log.streams(streams)).values()].flatMap(({ entries }) => entries);
      const theirs = [...filesOf(registry, told).keys()];
      const others = await keptElsewhere(registry, log, theirs, new Set(streams));
      for (const sha256 of theirs) if (!others.has(sha256)) await pictures.erase(sha256);
      await people.erase(person, streams);
      return outcome;
    },
    clearUnspoken: async () => (await clearUnspoken(log, pictures, clock())).length,
    verify: async (progress) => ({
      ...(await log.verify(progress)),
      files: await verifyFiles(registry, log, pictures.files),
    }),
    close: async () => {
      stop();
      await models.close();
      await people.close();
      await log.close();
    },
  };
  return host;
}
