/** The whole of what is served: the safety around it, the routes, the page. */
import { OpenAPIHono } from '@hono/zod-openapi';
import { compress } from 'hono/compress';
import { LARGEST_PICTURE } from '../contract/picture/picture.ts';
import { outsideAddress } from '../handouts/key.ts';
import { FETCH } from '../handouts/link.ts';
import type { Host } from '../host/host.ts';
import { explain, faultOf } from './explain.ts';
import type { Jobs } from './jobs.ts';
import { fileHeaders } from './middleware/file-headers.ts';
import { type FromWhom, fromWhom } from './middleware/from-whom.ts';
import { type Address, HERE, hostHeader } from './middleware/host-header.ts';
import { jsonBody, upTo } from './middleware/json-body.ts';
import { page } from './middleware/page.ts';
import { safeHeaders } from './middleware/safe-headers.ts';
import { sameOrigin } from './middleware/same-origin.ts';
import { signedIn } from './middleware/signed-in.ts';
import { toldAt } from './middleware/told-at.ts';
import { nothingHere } from './nothing-here.ts';
import { openapi } from './openapi.ts';
import { problemResponse } from './problems.ts';
import { calendar } from './routes/calendar.ts';
import { commands } from './routes/commands.ts';
import { day } from './routes/day.ts';
import { fetching } from './routes/fetch.ts';
import { files } from './routes/files.ts';
import { handouts } from './routes/handouts.ts';
import { health } from './routes/health.ts';
import { imports } from './routes/imports.ts';
import { live } from './routes/live.ts';
import { log } from './routes/log.ts';
import { network } from './routes/network.ts';
import { papers, problemAsWords } from './routes/papers.ts';
import { plugins } from './routes/plugins.ts';
import { problems } from './routes/problems.ts';
import { reports } from './routes/reports.ts';
import type { Services } from './routes/route.ts';
import { session } from './routes/session.ts';
import { timed } from './routes/timed.ts';
import { upkeep } from './routes/upkeep.ts';
import { waiting } from './routes/waiting.ts';
import type { Keeping } from './services.ts';

export interface AppOptions {
  readonly host: Host;
  readonly keeping: Keeping;
  readonly jobs: Jobs;
  /** The port it is served on. */
  readonly port: () => number;
  /** Names by which the network asks for it, over https; only devices that are signed in get an answer. */
  readonly networkNames?: () => readonly string[];
  /** Folder of the built page; without it only /api is served. */
  readonly web?: string;
  /** Milliseconds between signs of life of the live log. */
  readonly heartbeat?: number;
  /** Told of every error that is not the asker's. */
  readonly report?: (error: Error) => void;
}

const PICTURES = /^\/api\/files\/[^/]+$/;
/** What a buyer's form may say. */
const LARGEST_FORM = 16 * 1024;
const IMPORTS = /^\/api\/(import|imports)(\/|$)/;

/** The routes, for their types: `hono/client` knows from them what each takes and gives. */
function routes(
  app: OpenAPIHono<FromWhom>,
  services: Services,
  report: (error: Error) => void,
  heartbeat?: number,
) {
  const one = log(commands(app, services), services);
  const two = day(plugins(reports(live(one, services, heartbeat), services), services), services);
  const three = papers(waiting(health(two, services), services), services);
  const four = calendar(network(session(three, services), services), services);
  const five = fetching(handouts(imports(four, services), services), services, report);
  const six = timed(upkeep(five, services), services);
  return problems(files(six, services));
}

export function buildApp(options: AppOptions) {
  const { host, keeping, jobs, port, networkNames, web, heartbeat, report = console.error } = options;
  const here = networkNames === undefined;
  const address: Address = here
    ? { scheme: 'http', names: () => HERE, port, outside: () => outsideAddress(keeping.folder) }
    : { scheme: 'https', names: networkNames, port };
  const app = new OpenAPIHono<FromWhom>({
    defaultHook: (result) =>
      result.success ? undefined : problemResponse('bad-input', faultOf(result.error)),
  });
  app.onError((error, c) => problemAsWords(c, explain(error, report)));
  app.use('/api/files/*', fileHeaders());
  app.use(safeHeaders(), hostHeader(address), compress());
  app.use(`${FETCH}/*`, upTo(LARGEST_FORM));
  app.use('/api/*', sameOrigin(address.scheme));
  if (!here) app.use('/api/*', signedIn(doorOf(keeping)));
  app.use('/api/*', fromWhom(), async (c, next) => {
    await next();
    if (!c.res.headers.has('cache-control')) c.header('cache-control', 'no-store');
  });
  app.use('/api/reports/*', toldAt(host));
  app.use('/api/waiting', toldAt(host));
  const limited = jsonBody();
  const picture = upTo(LARGEST_PICTURE);
  app.use('/api/*', (c, next) => {
    if (IMPORTS.test(c.req.path)) return next();
    return PICTURES.test(c.req.path) ? picture(c, next) : limited(c, next);
  });
  const served = routes(app, { host, jobs, keeping, here }, report, heartbeat);
  openapi(app, host, keeping.version);
  app.notFound(nothingHere(app));
  if (web !== undefined) app.use(page(web));
  return served;
}

/** @throws where the network would be let in without a door */
function doorOf({ network }: Keeping) {
  if (network === undefined) throw new Error('The network is not served without a passphrase.');
  return network.door;
}

export type App = ReturnType<typeof routes>;
