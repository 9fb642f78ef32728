/** Pictures over http, into the real keeper. */
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterEach, describe, expect, test } from 'vitest';
import { Pictures } from '../../server/files/pictures.ts';
import { Files, sha256Of } from '../../server/files/store.ts';
import { photograph, SECRETS, withSecrets } from '../support/photographs.ts';
import { smallApp } from './small-studio.ts';

const folders: string[] = [];
afterEach(() => {
  for (const each of folders.splice(0)) rmSync(each, { recursive: true, force: true });
});

function keeper() {
  const dir = mkdtempSync(join(tmpdir(), 'wareboard-pictures-'));
  folders.push(dir);
  const pictures = new Pictures(new Files(join(dir, 'files')), join(dir, 'small'));
  const made = smallApp({ pictures });
  const send = (bytes: Uint8Array<ArrayBuffer>, { type = 'image/jpeg', name = sha256Of(bytes) } = {}) =>
    made.ask(`/api/files/${name}`, { method: 'PUT', body: bytes, headers: { 'content-type': type } });
  const files = () =>
    readdirSync(dir, { recursive: true, encoding: 'utf8' }).filter((path) => /[0-9a-f]{62}/.test(path));
  return { ...made, dir, pictures, send, files };
}

const problem = async (answer: Response) => [answer.status, (await answer.json()).code];

describe('a picture that a device sends', () => {
  test('is kept under the SHA-256 of what is in it, once', async () => {
    const { send, files } = keeper();
    const bytes = await photograph();
    const sha256 = sha256Of(bytes);
    const answer = await send(bytes);
    expect(await answer.json()).toEqual({
      sha256,
      type: 'image/jpeg',
      bytes: bytes.length,
      width: 60,
      height: 40,
    });
    expect((await send(bytes)).status).toBe(200);
    expect(files().sort()).toEqual([
      join('files', sha256.slice(0, 2), sha256.slice(2)),
      join('small', sha256.slice(0, 2), sha256.slice(2)),
    ]);
  });

  test.each(['ENOSPC', 'EDQUOT'])(
    'that finds no room on the disk is said to (%s), and comes in once there is',
    async (code) => {
      const { send, files, pictures } = keeper();
      const bytes = await photograph();
      const keep = pictures.files.keep.bind(pictures.files);
      pictures.files.keep = () => Promise.reject(Object.assign(new Error('write'), { code }));
      const answer = await send(bytes);
      expect(answer.status).toBe(507);
      expect(await answer.json()).toMatchObject({
        code: 'no-room',
        detail: expect.stringMatching(/no room left on the disk/),
      });
      expect(files()).toEqual([]);
      pictures.files.keep = keep;
      expect((await send(bytes)).status).toBe(200);
    },
  );

  test('is given back as it was, for this device alone to keep, and can run nothing', async () => {
    const { send, ask } = keeper();
    const bytes = await photograph();
    const sha256 = sha256Of(bytes);
    await send(bytes);
    const answer = await ask(`/api/files/${sha256}`);
    expect(new Uint8Array(await answer.arrayBuffer())).toEqual(bytes);
    expect(Object.fromEntries(answer.headers)).toMatchObject({
      'content-type': 'image/jpeg',
      'cache-control': 'private, max-age=31536000, immutable',
      'content-security-policy': "default-src 'none'; sandbox",
      'x-content-type-options': 'nosniff',
      'cross-origin-resource-policy': 'same-origin',
    });
    const again = await ask(`/api/files/${sha256}`, {
      headers: { 'if-none-match': answer.headers.get('etag')! },
    });
    expect(again.status).toBe(304);
    expect(again.headers.get('content-security-policy')).toContain('sandbox');
  });

  test('has a small copy, made again where it was lost', async () => {
    const { send, ask, dir } = keeper();
    const bytes = await photograph(1500, 2000);
    await send(bytes);
    for (const lost of [false, true]) {
      if (lost) rmSync(join(dir, 'small'), { recursive: true });
      const small = await ask(`/api/files/${sha256Of(bytes)}?size=small`);
      expect(small.headers.get('content-type')).toBe('image/webp');
      expect(await sharp(await small.arrayBuffer()).metadata()).toMatchObject({ width: 360, height: 480 });
    }
  });
});

describe('what another program sends', () => {
  test.each(['jpeg', 'png', 'webp'] as const)(
    'with place, maker and script in it is kept without (%s)',
    async (kind) => {
      const { send, pictures } = keeper();
      const bytes = await withSecrets(kind);
      const answer = await send(bytes, { type: `image/${kind}` });
      expect(answer.status).toBe(200);
      const { sha256 } = await answer.json();
      expect(sha256).not.toBe(sha256Of(bytes));
      expect(pictures.files.standing(sha256Of(bytes))).toBe('missing');
      const kept = (await pictures.read(sha256))!.bytes;
      expect(sha256Of(kept)).toBe(sha256);
      for (const secret of SECRETS) expect(kept.toString('latin1')).not.toContain(secret);
    },
  );

  test('held on its side is turned upright before that is forgotten', async () => {
    const { send } = keeper();
    expect(await (await send(await withSecrets('jpeg', 6))).json()).toMatchObject({ width: 40, height: 60 });
  });

  test('of sixty million points is made smaller', async () => {
    const { send } = keeper();
    const bytes = new Uint8Array(
      await sharp({ create: { width: 9_500, height: 6_400, channels: 3, background: '#987' } })
        .jpeg()
        .toBuffer(),
    );
    const answer = await send(bytes);
    expect(answer.status).toBe(200);
    expect(await answer.json()).toMatchObject({ width: 2_000, height: 1_347 });
  }, 30_000);

  test('of more points than can be unpacked is refused before it is', async () => {
    const { send, files } = keeper();
    const bytes = Uint8Array.from(await photograph());
    const frame = bytes.findIndex((byte, at) => byte === 0xff && bytes[at + 1] === 0xc0);
    bytes.set([0xff, 0xff, 0xff, 0xff], frame + 5);
    const answer = await send(bytes);
    expect(answer.status).toBe(415);
    expect((await answer.json()).detail).toMatch(/4295 million points/);
    expect(files()).toEqual([]);
  });

  test.each([
    ['a text called .jpg', 'Fell White, cone 6: see page 12', /not a picture, whatever its name says/],
    ['a web page', '<!doctype html><script>alert(1)</script>', /not a picture/],
    ['a picture that breaks off', '\xff\xd8\xff\xe0', /damaged or breaks off/],
  ])('is refused when it is %s', async (_, content, why) => {
    const { send, files } = keeper();
    const answer = await send(Uint8Array.from(Buffer.from(content, 'latin1')));
    expect(answer.status).toBe(415);
    expect(await answer.json()).toMatchObject({ code: 'not-a-picture', detail: expect.stringMatching(why) });
    expect(files()).toEqual([]);
  });

  test('is refused where its points are garbage', async () => {
    const { send } = keeper();
    const bytes = Uint8Array.from(await photograph(600, 400, 'png'));
    bytes.fill(7, 60, bytes.length - 20);
    expect(await problem(await send(bytes, { type: 'image/png' }))).toEqual([415, 'not-a-picture']);
  });
});

test('what did not arrive whole, is too large, or is sent as something else is not kept', async () => {
  const { send, files } = keeper();
  const bytes = await photograph();
  expect(await problem(await send(bytes, { name: 'ab'.repeat(32) }))).toEqual([400, 'bad-input']);
  expect(await problem(await send(bytes, { name: 'nonsense' }))).toEqual([400, 'bad-input']);
  expect(await problem(await send(bytes, { type: 'text/html' }))).toEqual([415, 'wrong-media-type']);
  expect(await problem(await send(new Uint8Array(41 * 1024 * 1024)))).toEqual([413, 'too-large']);
  expect(files()).toEqual([]);
});

test('an erased one is gone, and is not taken in again', async () => {
  const { send, ask, pictures, files } = keeper();
  const bytes = await photograph();
  await send(bytes);
  await pictures.erase(sha256Of(bytes));
  expect(await problem(await ask(`/api/files/${sha256Of(bytes)}`))).toEqual([410, 'picture-erased']);
  expect(await problem(await ask(`/api/files/${sha256Of(bytes)}?size=small`))).toEqual([
    410,
    'picture-erased',
  ]);
  expect(await problem(await send(bytes))).toEqual([410, 'picture-erased']);
  expect(files().map((path) => path.slice(-7))).toEqual(['.erased']);
});

test('there is none that was never sent, and no path is made from a name', async () => {
  const { ask } = keeper();
  expect(await problem(await ask(`/api/files/${'ab'.repeat(32)}`))).toEqual([404, 'no-picture']);
  for (const name of ['..%2f..%2flog.db', 'AB'.repeat(32), `${'ab'.repeat(31)}%2e%2e`])
    expect((await ask(`/api/files/${name}`)).status).toBe(400);
});

test('pictures sent all at once are unpacked one after the other, and all are kept', async () => {
  const { send, files } = keeper();
  const all = await Promise.all([50, 60, 70, 80].map((width) => photograph(width, 40)));
  expect((await Promise.all(all.map((bytes) => send(bytes)))).map(({ status }) => status)).toEqual([
    200, 200, 200, 200,
  ]);
  expect(files()).toHaveLength(8);
});
