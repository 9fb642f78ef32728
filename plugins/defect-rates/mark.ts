/**
 * A number of 32 bits made from a text: FNV-1a of G. Fowler, L. C. Noll and K.-P. Vo (from memory). Added up over the pieces of a month it tells whether anything of the month has changed: to
 * miss a change, two texts in four thousand million must have the same number.
 */
export function markOf(text: string): number {
  let hash = 0x811c9dc5;
  for (let at = 0; at < text.length; at++) hash = Math.imul(hash ^ text.charCodeAt(at), 0x01000193);
  return hash >>> 0;
}
