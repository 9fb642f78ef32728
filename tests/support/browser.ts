/**
 * A real browser for tests: an installed Chromium where there is one, else the one
 * that @sparticuz/chromium carries. Only --no-sandbox is added to its usual ways: the
 * package's own list of arguments turns web security off and would hide faults.
 */
import { existsSync, mkdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Browser, type BrowserContext, chromium as playwright } from 'playwright-core';

const INSTALLED = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome-stable',
  '/usr/bin/google-chrome',
];
const LIBRARIES = [
  '/usr/lib/x86_64-linux-gnu/libnss3.so',
  '/usr/lib64/libnss3.so',
  '/usr/lib/libnss3.so',
  '/lib/x86_64-linux-gnu/libnss3.so',
];

/** Where the package keeps its browser, packed. */
const packed = () =>
  fileURLToPath(new URL('../../bin/chromium.br', import.meta.resolve('@sparticuz/chromium')));

/**
 * Unpacked once for each version of the package. Several tests may begin at once: each unpacks
 * beside the place, and the first to be done moves its own there whole.
 */
async function carried(): Promise<string> {
  const place = join(tmpdir(), `wareboard-browser-${statSync(packed()).size}`);
  const ready = existsSync(join(place, 'chromium'));
  const folder = ready ? place : `${place}.${process.pid}`;
  mkdirSync(folder, { recursive: true });
  const before = process.env.TMPDIR;
  process.env.TMPDIR = folder;
  if (!LIBRARIES.some(existsSync)) {
    // Without libnss3 the package uses its own copies, if it believes itself in such a place.
    process.env.AWS_EXECUTION_ENV = 'AWS_Lambda_nodejs22.x';
    process.env.AWS_LAMBDA_JS_RUNTIME = 'nodejs22.x';
  }
  const { default: chromium } = await import('@sparticuz/chromium');
  await chromium.executablePath();
  if (before === undefined) delete process.env.TMPDIR;
  else process.env.TMPDIR = before;
  if (!ready) moveWhole(folder, place);
  return join(place, 'chromium');
}

function moveWhole(folder: string, place: string): void {
  try {
    renameSync(folder, place);
  } catch {
    // Another was first.
    rmSync(folder, { recursive: true, force: true });
  }
  const libraries = process.env.LD_LIBRARY_PATH;
  if (libraries) process.env.LD_LIBRARY_PATH = libraries.replaceAll(folder, place);
}

/** @param more arguments that a test needs, such as a film for the camera */
export async function openBrowser(more: readonly string[] = []): Promise<Browser> {
  const executablePath = process.env.CHROMIUM ?? INSTALLED.find(existsSync) ?? (await carried());
  return playwright.launch({ executablePath, args: ['--no-sandbox', ...more] });
}

/** The moment at which browser tests happen, for the server and for the page. */
export const NOW = new Date('2026-11-25T09:00:00Z');

export const PHONE = {
  viewport: { width: 390, height: 844 },
  hasTouch: true,
  isMobile: true,
  deviceScaleFactor: 2,
} as const;
export const LAPTOP = { viewport: { width: 1280, height: 800 } } as const;

export interface Seat {
  readonly size: typeof PHONE | typeof LAPTOP;
  readonly light?: 'light' | 'dark';
}

/** A page that fails the test on any error, refused script or style, or answer of 500. */
export async function openSeat(browser: Browser, address: string, { size, light = 'light' }: Seat) {
  const context: BrowserContext = await browser.newContext({
    ...size,
    colorScheme: light,
    locale: 'en-GB',
    timezoneId: 'Europe/London',
    baseURL: address,
    reducedMotion: 'reduce',
  });
  await context.clock.setFixedTime(NOW);
  const page = await context.newPage();
  const faults: string[] = [];
  page.on('pageerror', (error) => faults.push(String(error)));
  page.on('console', (message) => {
    if (message.type() === 'error') faults.push(message.text());
  });
  page.on('response', (response) => {
    if (response.status() >= 500) faults.push(`${response.status()} ${response.url()}`);
  });
  return { context, page, faults };
}
