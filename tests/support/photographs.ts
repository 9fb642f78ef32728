/** Photographs made for tests: what a camera writes into a file, and what somebody else might. */
import sharp from 'sharp';

/** Words that must never be kept: where it was taken, with what, and a script. */
export const SECRETS = ['Hollin Yard at 53.9', 'KilnCam 3', '<script>alert(1)</script>'] as const;

type Kind = 'jpeg' | 'png' | 'webp';

const plain = (width: number, height: number) =>
  sharp({ create: { width, height, channels: 3, background: { r: 90, g: 120, b: 80 } } });

/** As a device makes it: nothing but the picture. */
export const photograph = async (
  width = 60,
  height = 40,
  kind: Kind = 'jpeg',
): Promise<Uint8Array<ArrayBuffer>> => new Uint8Array(await plain(width, height)[kind]().toBuffer());

/** As a camera and a meddler leave it: place, maker, profile, a script, and something after the end. */
export async function withSecrets(kind: Kind, turned = 1): Promise<Uint8Array<ArrayBuffer>> {
  const [place, maker, script] = SECRETS;
  const made = await plain(60, 40)
    [kind]()
    .withIccProfile('p3')
    .withExif({
      IFD0: { Make: maker, ImageDescription: place, Copyright: script },
      IFD3: { GPSLatitudeRef: 'N' },
    })
    .withMetadata({ orientation: turned })
    .withXmp(`<x:xmpmeta xmlns:x="adobe:ns:meta/"><note>${place} ${script}</note></x:xmpmeta>`)
    .toBuffer();
  const comment = Buffer.from(script);
  if (kind === 'jpeg') {
    const head = Buffer.from([0xff, 0xfe, 0, comment.length + 2]);
    return new Uint8Array(Buffer.concat([made.subarray(0, 2), head, comment, made.subarray(2), comment]));
  }
  return new Uint8Array(kind === 'png' ? Buffer.concat([made, comment]) : made);
}
