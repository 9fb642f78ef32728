/**
 * UUIDv7 (RFC 9562, 5.7): 48 bits of Unix milliseconds, then 74 random bits.
 * getRandomValues, because randomUUID is missing on pages served without https.
 * Ids made in one millisecond still sort in the order they were made: the first
 * random bits hold a counter (RFC 9562, 6.2, method 1).
 */
let lastTime = -1;
let counter = 0;

export function newId(now: number = Date.now()): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  if (now > lastTime) {
    lastTime = now;
    counter = ((bytes[6]! & 0x07) << 8) | bytes[7]!;
  } else {
    counter += 1;
    if (counter > 0xfff) {
      counter = 0;
      lastTime += 1;
    }
  }
  let time = lastTime;
  for (let at = 5; at >= 0; at -= 1) {
    bytes[at] = time % 256;
    time = Math.floor(time / 256);
  }
  bytes[6] = 0x70 | (counter >> 8);
  bytes[7] = counter & 0xff;
  bytes[8] = 0x80 | (bytes[8]! & 0x3f);
  const hex = Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-${hex.slice(12, 16)}-${hex.slice(16, 20)}-${hex.slice(20)}`;
}

/** Opaque id of this device: made once, kept by the browser. */
export function deviceId(): string {
  const kept = localStorage.getItem('wareboard.device');
  if (kept) return kept;
  const made = newId();
  localStorage.setItem('wareboard.device', made);
  return made;
}
