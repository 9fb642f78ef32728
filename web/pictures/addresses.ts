/** Where a picture is to be had: what was taken on this device a moment ago is shown from here, sent or not. */

const taken = new Map<string, string>();
/** Kept in sight at most; the oldest goes first. */
const MOST = 30;

export function remember(sha256: string, blob: Blob): void {
  if (taken.has(sha256)) return;
  taken.set(sha256, URL.createObjectURL(blob));
  const [oldest] = taken;
  if (taken.size <= MOST || !oldest) return;
  URL.revokeObjectURL(oldest[1]);
  taken.delete(oldest[0]);
}

export const smallAddress = (sha256: string): string =>
  taken.get(sha256) ?? `/api/files/${sha256}?size=small`;

export const wholeAddress = (sha256: string): string => taken.get(sha256) ?? `/api/files/${sha256}`;
