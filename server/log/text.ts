/** Stored text, fetched as bytes. */
import { LogDamaged } from './log.ts';

/** As the embedded driver and the one over http give them; null where damage has left nothing. */
export type Bytes = Uint8Array | ArrayBuffer | null;

const decoder = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });

/** @throws LogDamaged when the bytes are not UTF-8 */
export function text(bytes: Bytes): string {
  if (bytes === null) throw new LogDamaged('The log has lost a text that it holds.');
  try {
    return decoder.decode(bytes);
  } catch {
    throw new LogDamaged('The log holds a text that is not text any more (its bytes are not UTF-8).');
  }
}
