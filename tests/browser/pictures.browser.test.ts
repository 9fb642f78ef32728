/** A picture taken at the bench: made smaller, cleaned, kept, shown; and what is no picture said plainly. */
import type { Browser, Page } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { violations } from '../support/axe.ts';
import { LAPTOP, openBrowser, openSeat, PHONE, type Seat } from '../support/browser.ts';
import { photograph, SECRETS, withSecrets } from '../support/photographs.ts';
import { openServed, type Served } from '../support/served.ts';
import { smallYard, type Yard } from '../support/small-yard.ts';

let browser: Browser;
let served: Served;
let yard: Yard;

beforeAll(async () => {
  [served, browser] = await Promise.all([openServed(), openBrowser()]);
  yard = await smallYard(served.host);
}, 90_000);
afterAll(async () => {
  await browser?.close();
  await served?.close();
});

async function seated(seat: Seat, work: (page: Page) => Promise<void>) {
  const { context, page, faults } = await openSeat(browser, served.address, seat);
  try {
    await work(page);
    expect(faults).toEqual([]);
  } finally {
    await context.close();
  }
}

const file = (bytes: Uint8Array, name = 'IMG_0042.jpg', mimeType = 'image/jpeg') => ({
  name,
  mimeType,
  buffer: Buffer.from(bytes),
});
const camera = (page: Page) => page.locator('.take input[capture]');
const chooser = (page: Page) => page.locator('.take input:not([capture])');
const photosOf = async (piece: string) => {
  const { rows } = await served.host.report('studio', 'piece', { piece });
  return rows[0]!.photos as {
    sha256: string;
    width: number;
    height: number;
    fault?: string;
    repair?: string;
    shows?: string;
  }[];
};

describe('a picture taken on the phone', () => {
  test('is made smaller, cleaned on the device, kept under its name, and shown with the piece', async () => {
    await seated({ size: PHONE }, async (page) => {
      await page.goto(`/ware/${yard.pieces.jug}`);
      const large = await sharp({ create: { width: 4000, height: 3000, channels: 3, background: '#a98' } })
        .withExif({ IFD0: { Make: SECRETS[1], ImageDescription: SECRETS[0] }, IFD3: { GPSLatitudeRef: 'N' } })
        .jpeg()
        .toBuffer();
      const sent = page.waitForRequest((request) => request.method() === 'PUT');
      await camera(page).setInputFiles(file(large));
      const put = await sent;
      await page.getByRole('button', { name: /^Look at it larger/ }).waitFor();
      const [photo] = await photosOf(yard.pieces.jug!);
      expect(photo).toMatchObject({ width: 2000, height: 1500 });
      // What the device reckoned is what the studio reckoned.
      expect(put.url()).toContain(photo!.sha256);
      const kept = (await served.host.pictures.read(photo!.sha256))!;
      for (const secret of SECRETS) expect(kept.bytes.toString('latin1')).not.toContain(secret);
    });
  });

  test('held on its side comes out upright', async () => {
    await seated({ size: PHONE }, async (page) => {
      await page.goto(`/ware/${yard.pieces.beakers}`);
      await camera(page).setInputFiles(file(await withSecrets('jpeg', 6)));
      await page.getByRole('button', { name: /^Look at it larger/ }).waitFor();
      expect(await photosOf(yard.pieces.beakers!)).toMatchObject([{ width: 40, height: 60 }]);
    });
  });

  test('opens larger, is closed by Escape, and can be taken back', async () => {
    await seated({ size: PHONE }, async (page) => {
      await page.goto(`/ware/${yard.pieces.plates}`);
      await camera(page).setInputFiles(file(await photograph(900, 600)));
      await page.getByRole('button', { name: /^Look at it larger/ }).click();
      await page.getByRole('dialog').getByRole('img').waitFor();
      expect(await violations(page)).toEqual([]);
      await page.keyboard.press('Escape');
      await page.getByRole('dialog').waitFor({ state: 'detached' });
      await page.getByRole('button', { name: 'Undo' }).click();
      await page.getByText('No picture yet. One taken now').waitFor();
      expect(await photosOf(yard.pieces.plates!)).toEqual([]);
    });
  });

  test('of a repair stands beside the one from before', async () => {
    const jug = yard.pieces.jug!;
    const mended = { piece: jug, method: 'grind' };
    const order = { id: '01980000-0000-7000-8000-00000000b00c', command: 'repair.do', input: mended };
    expect(await served.host.record({ ...order, who: 'ansa', device: 'bench' })).toMatchObject({
      outcome: 'recorded',
    });
    await seated({ size: PHONE }, async (page) => {
      await page.goto(`/ware/${jug}`);
      for (const [n, shows] of ['before grind', 'after grind'].entries()) {
        const kept = (await photosOf(jug)).length;
        await page.getByLabel('It shows').selectOption(shows);
        await camera(page).setInputFiles(file(await photograph(300 + n, 200)));
        await expect.poll(async () => (await photosOf(jug)).length).toBe(kept + 1);
      }
      await page.getByRole('heading', { name: /^Before and after/ }).waitFor();
      expect(await page.locator('.before-after img').count()).toBe(2);
    });
    expect((await photosOf(jug)).slice(-2).map(({ shows }) => shows)).toEqual(['before', 'after']);
  });
});

describe('what cannot be kept is said plainly, and nothing is recorded', () => {
  const count = async () => (await served.host.log.head()).count;

  test.each([
    ['a text called .jpg', file(Buffer.from('Fell White, cone 6: see page 12'))],
    ['a web page', file(Buffer.from('<!doctype html><script>alert(1)</script>'), 'pot.jpg', 'image/jpeg')],
    ['a picture that breaks off at once', file(Buffer.from([0xff, 0xd8, 0xff, 0xe0]))],
  ])('%s', async (_, wrong) => {
    const before = await count();
    await seated({ size: PHONE }, async (page) => {
      await page.goto(`/ware/${yard.pieces.plates}`);
      await camera(page).setInputFiles(wrong);
      await page.getByText('not a picture that this device can read').waitFor();
    });
    expect(await count()).toBe(before);
  });

  test('a photograph with a script in it, and with where it was taken: only the picture is kept', async () => {
    await seated({ size: PHONE }, async (page) => {
      await page.goto(`/ware/${yard.pieces.bowls}`);
      await camera(page).setInputFiles(file(await withSecrets('jpeg')));
      await page.getByRole('button', { name: /^Look at it larger/ }).waitFor();
      const [photo] = await photosOf(yard.pieces.bowls!);
      const kept = (await served.host.pictures.read(photo!.sha256))!;
      for (const secret of [...SECRETS, '<script', 'Exif'])
        expect(kept.bytes.toString('latin1')).not.toContain(secret);
      // Shown by itself it runs nothing.
      const answer = await page.request.get(`/api/files/${photo!.sha256}`);
      expect(answer.headers()['content-security-policy']).toBe("default-src 'none'; sandbox");
    });
  });

  test('a full disk on the studio’s machine: it is said, the picture stays on the phone, and goes up once there is room', async () => {
    const { files } = served.host.pictures;
    const keep = files.keep.bind(files);
    files.keep = () => Promise.reject(Object.assign(new Error('write'), { code: 'ENOSPC' }));
    const { context, page } = await openSeat(browser, served.address, { size: PHONE });
    try {
      const before = await count();
      await page.goto(`/ware/${yard.pieces.lamp}`);
      await camera(page).setInputFiles(file(await photograph(321, 123)));
      await page.getByText('There is no room left on the disk').first().waitFor();
      expect(await count()).toBe(before);
      files.keep = keep;
      await page.goto('/unsent');
      await page.getByText('There is no room left on the disk').first().waitFor();
      await page.getByRole('button', { name: 'Ask again' }).click();
      await page.getByText('Nothing waits on this device').waitFor();
      expect(await photosOf(yard.pieces.lamp!)).toMatchObject([{ width: 321, height: 123 }]);
    } finally {
      files.keep = keep;
      await context.close();
    }
  });

  test('a picture of sixty million points is made smaller without breaking down', async () => {
    const large = await sharp({ create: { width: 9_500, height: 6_400, channels: 3, background: '#987' } })
      .jpeg()
      .toBuffer();
    await seated({ size: PHONE }, async (page) => {
      await page.goto('/kilns/g8');
      await camera(page).setInputFiles(file(large));
      await page.getByRole('button', { name: /^Look at it larger/ }).waitFor({ timeout: 60_000 });
    });
    const { more } = await served.host.report('studio', 'firing', { firing: 'g8' });
    expect((more!.firing as { photos: object[] }).photos).toMatchObject([{ width: 2000 }]);
  }, 90_000);
});

test('on the laptop a picture of a glaze is chosen under Materials', async () => {
  await seated({ size: LAPTOP }, async (page) => {
    await page.goto('/materials');
    await page.locator('summary[aria-label="Pictures: Quicksilver Run"]').click();
    await chooser(page).setInputFiles(file(await photograph(640, 480)));
    await page.getByRole('button', { name: /^Look at it larger: Quicksilver Run/ }).waitFor();
    expect(await page.getByText('Take a picture', { exact: true }).isVisible()).toBe(false);
  });
});

test.each([
  [PHONE, 'light'],
  [LAPTOP, 'dark'],
] as const)(
  'the wall hangs fired ware by glaze, by glaze on clay and by firing (%o, %s)',
  async (size, light) => {
    await seated({ size, light }, async (page) => {
      await page.goto('/ware');
      await page.getByRole('link', { name: 'The wall of pictures' }).click();
      await page.getByRole('heading', { name: 'The wall of pictures' }).waitFor();
      await page
        .getByRole('button', { name: /^Look at it larger/ })
        .first()
        .waitFor();
      expect(await violations(page)).toEqual([]);
      await page.getByText('by glaze on clay', { exact: true }).click();
      await page.getByRole('heading', { name: / on / }).first().waitFor();
      await page.getByText('by firing', { exact: true }).click();
      await page.waitForURL(/by=firing/);
      await page
        .getByRole('button', { name: /^Look at it larger/ })
        .first()
        .click();
      await page.getByRole('link', { name: /To its story|To the firing/ }).click();
      await page.waitForURL(/\/(ware|kilns)\/[^?]+$/);
    });
  },
);
