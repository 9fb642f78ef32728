/**
 * The service worker: the page itself is kept on this device, so that it opens without a network. It
 * touches no answers of the studio and nothing that waits; those are the page's.
 *
 * A newer page is fetched whole beside the one in use, and takes over when no screen is open or when the
 * user says so. The one before is kept a while, for screens that are still open.
 */
declare const FILES: readonly string[];
declare const VERSION: string;

/** The parts of the service worker's surroundings that are used here; the page's own types do not know them. */
interface Surroundings {
  readonly location: Location;
  skipWaiting(): Promise<void>;
  addEventListener(name: 'install' | 'activate', run: (event: Lasting) => void): void;
  addEventListener(name: 'message', run: (event: MessageEvent & Lasting) => void): void;
  addEventListener(name: 'fetch', run: (event: Fetching) => void): void;
}
interface Lasting {
  waitUntil(work: Promise<unknown>): void;
}
interface Fetching extends Lasting {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}

const worker = self as unknown as Surroundings;
const PREFIX = 'wareboard-page-';
const HERE = `${PREFIX}${VERSION}`;
const PAGE = '/index.html';

async function fetchAll(): Promise<void> {
  const cache = await caches.open(HERE);
  await cache.addAll(FILES.map((file) => new Request(file, { cache: 'reload' })));
}

worker.addEventListener('install', (event) => event.waitUntil(fetchAll()));

worker.addEventListener('activate', (event) => {
  const dropOld = async () => {
    const pages = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== HERE);
    // In the order they were made: the last one may still be on a screen.
    await Promise.all(pages.slice(0, -1).map((name) => caches.delete(name)));
  };
  event.waitUntil(dropOld());
});

worker.addEventListener('message', (event) => {
  if (event.data === 'take-over') void worker.skipWaiting();
  if (event.data === 'look-after-page') event.waitUntil(fetchWhatIsGone());
});

/** The browser may have cleared the files and left the worker. */
async function fetchWhatIsGone(): Promise<void> {
  const kept = await (await caches.open(HERE)).keys();
  if (kept.length < FILES.length) await fetchAll();
}

worker.addEventListener('fetch', (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== 'GET' || origin !== worker.location.origin) return;
  if (pathname.startsWith('/api/') || pathname.startsWith('/fetch/')) return;
  const isFile = pathname.slice(pathname.lastIndexOf('/') + 1).includes('.');
  if (request.mode === 'navigate' && !isFile) event.respondWith(kept(PAGE, request));
  else if (FILES.includes(pathname) || pathname.startsWith('/assets/'))
    event.respondWith(kept(pathname, request));
});

/** From this page's files, then from those of the one before, then from the studio. */
async function kept(file: string, request: Request): Promise<Response> {
  const here = await (await caches.open(HERE)).match(file);
  return here ?? (await caches.match(file)) ?? fetch(request);
}

export {};
