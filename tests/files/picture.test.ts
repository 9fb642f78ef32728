import fc from 'fast-check';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { pictureOf, pictureType } from '../../server/contract/picture/picture.ts';
import { photograph, SECRETS, withSecrets } from '../support/photographs.ts';

const KINDS = ['jpeg', 'png', 'webp'] as const;
const text = (bytes: Uint8Array) => Buffer.from(bytes).toString('latin1');

describe.each(KINDS)('a photograph (%s)', (kind) => {
  test('as a device makes it comes out as it went in, with its size', async () => {
    const bytes = await photograph(61, 43, kind);
    const picture = pictureOf(bytes)!;
    expect(picture).toMatchObject({ type: `image/${kind}`, width: 61, height: 43 });
    expect(pictureOf(picture.bytes)!.bytes).toEqual(picture.bytes);
  });

  test('loses place, maker, script, profile and what stands after its end, and is the same picture', async () => {
    const bytes = await withSecrets(kind);
    const before = await sharp(bytes).metadata();
    expect(before.exif).toBeDefined();
    for (const secret of SECRETS) expect(text(bytes)).toContain(secret);
    const picture = pictureOf(bytes)!;
    for (const secret of [...SECRETS, 'script', 'Exif', 'ICC', 'xmpmeta'])
      expect(text(picture.bytes)).not.toContain(secret);
    const after = await sharp(picture.bytes).metadata();
    expect(after).toMatchObject({ width: 60, height: 40, format: kind });
    expect([after.exif, after.icc, after.xmp]).toEqual([undefined, undefined, undefined]);
    const drawn = await sharp(picture.bytes).raw().toBuffer();
    expect(drawn.length).toBeGreaterThan(0);
  });

  test('that breaks off anywhere is never taken for whole', async () => {
    const bytes = await photograph(61, 43, kind);
    for (let cut = 1; cut < bytes.length; cut += 1) expect(pictureOf(bytes.slice(0, cut))).toBeUndefined();
  });

  test('that is damaged anywhere is read without an error', async () => {
    const bytes = await photograph(61, 43, kind);
    fc.assert(
      fc.property(fc.nat(bytes.length - 1), fc.integer({ min: 0, max: 255 }), (at, byte) => {
        const damaged = Uint8Array.from(bytes);
        damaged[at] = byte;
        const picture = pictureOf(damaged);
        if (picture) expect(picture.bytes.length).toBeLessThanOrEqual(damaged.length);
      }),
      { seed: 7, numRuns: 300 },
    );
  });
});

test('a progressive photograph keeps all of its scans', async () => {
  const bytes = new Uint8Array(
    await sharp({
      create: {
        width: 200,
        height: 150,
        channels: 3,
        background: '#456',
        noise: { type: 'gaussian', mean: 120, sigma: 40 },
      },
    })
      .jpeg({ progressive: true })
      .toBuffer(),
  );
  const picture = pictureOf(bytes)!;
  expect(await sharp(picture.bytes).raw().toBuffer()).toEqual(await sharp(bytes).raw().toBuffer());
});

test.each([
  ['a text called .jpg', 'Fell White, cone 6: see page 12'],
  ['a web page', '<!doctype html><script>alert(1)</script>'],
  ['a drawing that could run a script', '<svg xmlns="http://www.w3.org/2000/svg"><script/></svg>'],
  ['nothing', ''],
  ['the beginning of a JPEG and no more', '\xff\xd8\xff'],
])('%s is no picture', (_, content) => {
  expect(pictureOf(Uint8Array.from(Buffer.from(content, 'latin1')))).toBeUndefined();
});

test('any bytes at all are read without an error', () => {
  const starts = [
    [],
    [0xff, 0xd8, 0xff],
    [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a],
    [...Buffer.from('RIFF\x20\0\0\0WEBPVP8 ')],
  ];
  fc.assert(
    fc.property(fc.constantFrom(...starts), fc.uint8Array({ maxLength: 200 }), (start, rest) => {
      const bytes = Uint8Array.from([...start, ...rest]);
      pictureOf(bytes);
      pictureType(bytes);
    }),
    { seed: 11, numRuns: 1_000 },
  );
});

test('a moving picture is not taken', async () => {
  const frames = await Promise.all(
    ['#f00', '#00f'].map((background) =>
      sharp({ create: { width: 20, height: 20, channels: 3, background } })
        .png()
        .toBuffer(),
    ),
  );
  const moving = await sharp(frames, { join: { animated: true } })
    .webp()
    .toBuffer();
  expect(Buffer.from(moving).toString('latin1')).toContain('ANMF');
  expect(pictureOf(new Uint8Array(moving))).toBeUndefined();
});
