/** The smallest picture there is, one point wide: for records that name a picture. */
import { createHash } from 'node:crypto';
import { pictureOf } from '../../server/contract/picture/picture.ts';

const PNG =
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==';

/** Cleaned, as it is kept. */
export const aPicture = pictureOf(Buffer.from(PNG, 'base64'))!;

/** As a command names it. */
export const A_PICTURE = {
  sha256: createHash('sha256').update(aPicture.bytes).digest('hex'),
  type: aPicture.type,
  bytes: aPicture.bytes.length,
  width: aPicture.width,
  height: aPicture.height,
} as const;
