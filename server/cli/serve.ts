/** `serve`: opens the data folder and serves the page from it until it is stopped. */
import { existsSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { join } from 'node:path';
import { makeBackup } from '../backup/make.ts';
import type { Host } from '../host/host.ts';
import { newId } from '../host/ids.ts';
import { serve as listen, type Serving } from '../http/serve.ts';
import { UPLOAD_LIMIT } from '../http/upload.ts';
import type { Network } from '../network/network.ts';
import { BookInFolder } from '../timed/book.ts';
import { PluginJobs } from '../timed/jobs.ts';
import { SecretsFile } from '../timed/secrets.ts';
import { dataFolder, lockOrServer, openHost } from './enter.ts';
import { isLock, type Lock } from './lock.ts';
import { letIn, networkOf } from './serve-network.ts';
import { type Desk, Failed, type Verb, type Words, WrongWords } from './verb.ts';
import { exactly } from './words.ts';

const PORT = 4280;

export const serve: Verb = {
  name: 'serve',
  usage: 'serve [--network]',
  about: `Serve the page on this machine, at PORT (${PORT} when that is not set); with --network also on the workshop’s network, over https and behind a passphrase`,
  options: { network: { type: 'boolean' } },
  run(words, desk) {
    exactly(words, serve);
    return serveFolder(dataFolder(words, desk), words, desk);
  },
};

export async function serveFolder(dir: string, words: Words, desk: Desk): Promise<number> {
  const port = portOf(desk);
  const taken = await lockOrServer(dir);
  if (!isLock(taken)) throw new Failed(`${dir} is open already: Wareboard serves it at ${taken.address}.`);
  try {
    const host = await openHost(dir, words, desk, true);
    const network = networkOf(dir, words.flag('network'), desk);
    try {
      const jobs = timedWork(host, dir, desk);
      const serving = await open(host, dir, port, taken, network, jobs, desk);
      taken.publish(serving.address);
      desk.terminal.out(`Wareboard is at ${serving.address}\nThe record is in ${dir}\n`);
      if (network.asked) await letIn(serving, network, port, desk);
      jobs.start();
      const warming = warmSoon(desk);
      const clearing = clearDaily(host, desk);
      await desk.stopped();
      clearTimeout(warming);
      clearInterval(clearing.timer);
      await clearing.running();
      await jobs.stop();
      await serving.close();
    } finally {
      await host.close();
    }
  } finally {
    taken.release();
  }
  return 0;
}

/** Once the page has had its first answers: nobody waits for the fonts then. */
const WARM_AFTER_MS = 1_500;

function warmSoon({ terminal }: Desk): NodeJS.Timeout {
  const warm = async () => (await import('../paper/warm.ts')).warmUp();
  const timer = setTimeout(
    () => warm().catch((error: Error) => terminal.err(`${error.stack ?? error.message}\n`)),
    WARM_AFTER_MS,
  );
  timer.unref();
  return timer;
}

const A_DAY = 86_400_000;

/** Pictures that nothing came of are let go of, at the start and once a day. */
function clearDaily(host: Host, { terminal }: Desk): { timer: NodeJS.Timeout; running(): Promise<void> } {
  const clear = () =>
    host.clearUnspoken().then(
      () => {},
      (error: Error) => terminal.err(`${error.stack ?? error.message}\n`),
    );
  let running = clear();
  const timer = setInterval(() => {
    running = clear();
  }, A_DAY);
  timer.unref();
  return { timer, running: () => running };
}

/** The plugins' timed work; what they keep to themselves stands in a file that only this user reads. */
function timedWork(host: Host, dir: string, { clock, terminal }: Desk): PluginJobs {
  return new PluginJobs({
    host,
    clock,
    secrets: new SecretsFile(dir),
    book: new BookInFolder(dir),
    after: (ms, work) => {
      const timer = setTimeout(work, ms);
      timer.unref();
      return () => clearTimeout(timer);
    },
    report: (error) => terminal.err(`${error.stack ?? error.message}\n`),
  });
}

async function open(
  host: Host,
  dir: string,
  port: number,
  lock: Lock,
  network: Network,
  timed: PluginJobs,
  { parts, clock, terminal }: Desk,
): Promise<Serving> {
  const uploads = join(dir, 'uploads');
  await rm(uploads, { recursive: true, force: true });
  const web = existsSync(join(parts.web, 'index.html')) ? parts.web : undefined;
  if (web === undefined) terminal.err('The page is not built (npm run build); only /api is served.\n');
  const keeping = {
    instance: lock.holder.instance,
    version: parts.version,
    folder: dir,
    uploads: { folder: uploads, limit: UPLOAD_LIMIT },
    clock,
    imports: parts.imports,
    network,
    timed,
    backup: async () => {
      const folder = join(dir, 'backups', newId(clock()));
      return { folder, entries: (await makeBackup({ dir, into: folder, clock })).entries };
    },
  };
  const report = (error: Error) => terminal.err(`${error.stack ?? error.message}\n`);
  return listen({ host, keeping, web, report }, port).catch((error: NodeJS.ErrnoException) => {
    if (error.code !== 'EADDRINUSE') throw error;
    throw new Failed(`Port ${port} is taken by another program. Choose another one: PORT=${port + 1}.`);
  });
}

function portOf({ env }: Desk): number {
  const text = env.PORT ?? String(PORT);
  const port = Number(text);
  if (!/^\d{1,5}$/.test(text) || port > 65_535)
    throw new WrongWords(`PORT must be a number up to 65535, not ${text}.`);
  return port;
}
