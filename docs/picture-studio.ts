/** Studios to take the pictures of: the demo on a fixed day, or an empty one; and how one is taken. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import sharp from 'sharp';
import { makeDemo } from '../server/demo/fill.ts';
import type { Host } from '../server/host/host.ts';
import { serve } from '../server/http/serve.ts';
import { importNotebook } from '../server/import/notebook/import.ts';
import { PLUGINS } from '../server/manifest.ts';
import { NETWORK, Network } from '../server/network/network.ts';
import { openHost } from '../server/open-host.ts';
import { laptop } from '../tests/network/laptop.ts';
import { LAPTOP, openSeat, PHONE } from '../tests/support/browser.ts';
import { lookAt } from '../tests/support/looked-at.ts';

const TODAY = '2026-05-14';
const NOW = new Date(`${TODAY}T09:20:00Z`);
export const PICTURES = fileURLToPath(new URL('pictures/', import.meta.url));
const WEB = fileURLToPath(new URL('../dist/web', import.meta.url));
/** Where the page and its certificate are had on the network while pictures are taken. */
const PORTS = { https: 4281, trust: 4282 };

export interface Studio {
  readonly host: Host;
  readonly address: string;
  close(): Promise<void>;
}

/** A studio in a folder that is thrown away, open on the network of a laptop that does not exist. */
export async function openStudio(filled: boolean): Promise<Studio> {
  const dir = mkdtempSync(join(tmpdir(), 'wareboard-pictures-'));
  if (filled) await makeDemo(dir, PLUGINS, TODAY);
  const host = await openHost({ dir, plugins: PLUGINS, clock: () => NOW });
  const network = new Network({
    folder: join(dir, NETWORK),
    // A certificate is good only at the real time.
    clock: () => new Date(),
    machine: () => laptop(),
    asked: true,
    cost: { N: 2 ** 10, r: 8, p: 1 },
  });
  await network.setPassphrase('marram over cuttle, twice');
  const keeping = {
    network,
    instance: 'pictures',
    version: 'pictures',
    folder: dir,
    uploads: { folder: join(dir, 'uploads'), limit: 1 << 24 },
    imports: { notebook: importNotebook },
    backup: () => Promise.reject(new Error('no backups while pictures are taken')),
  };
  const serving = await serve({ host, keeping, web: WEB }, 0);
  await serving.openNetwork(PORTS);
  const close = async () => {
    await serving.close();
    await host.close();
    rmSync(dir, { recursive: true, force: true });
  };
  return { host, address: serving.address, close };
}

export type Size = 'phone' | 'laptop';
/** One dot a pixel keeps the files small; a phone is drawn a little finer. */
const SIZES = { phone: { ...PHONE, deviceScaleFactor: 1.5 }, laptop: LAPTOP } as const;

export type Act = (page: Page, to: (heading: string) => Promise<void>) => Promise<void>;

/** @param act what is done before it is taken; `to` brings a heading to the top */
export async function picture(
  browser: Browser,
  { address }: Studio,
  name: string,
  size: Size,
  path: string,
  act: Act = async () => {},
): Promise<void> {
  const seat = { size: SIZES[size] as typeof PHONE | typeof LAPTOP };
  const { context, page, faults } = await openSeat(browser, address, seat);
  try {
    await page.clock.setFixedTime(NOW);
    await page.goto(path);
    await page.getByRole('heading', { level: 1 }).waitFor();
    await act(page, (heading) =>
      page
        .getByRole('heading', { name: heading })
        .first()
        .evaluate((it) => it.scrollIntoView({ block: 'start' })),
    );
    await page.evaluate(() => document.fonts.ready);
    await page.waitForLoadState('networkidle').catch(() => {});
    await page.screenshot({ path: join(PICTURES, `${name}-${size}.png`), animations: 'disabled' });
    if (faults.length > 0) throw new Error(`${name}: ${faults.join('; ')}`);
    console.log(`${name}-${size}.png`);
  } finally {
    await context.close();
  }
}

/** The first page of a paper, as MuPDF draws it. @param query which paper, and for what */
export async function paper({ address }: Studio, name: string, query: string): Promise<void> {
  const answer = await fetch(`${address}/api/papers/${query}`);
  if (!answer.ok) throw new Error(`${name}: ${await answer.text()}`);
  const { width, height, pixels } = lookAt(new Uint8Array(await answer.arrayBuffer())).raster(0, 100);
  const png = await sharp(pixels, { raw: { width, height, channels: 1 } })
    .png()
    .toBuffer();
  writeFileSync(join(PICTURES, `${name}-paper.png`), png);
  console.log(`${name}-paper.png`);
}

export async function firstOf(
  host: Host,
  report: string,
  params: Record<string, string>,
  field: string,
): Promise<string> {
  const { rows } = await host.report('studio', report, params);
  const found = rows[0]?.[field];
  if (typeof found !== 'string') throw new Error(`The demo has no ${report} for ${JSON.stringify(params)}.`);
  return encodeURIComponent(found);
}
