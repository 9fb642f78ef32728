import { encode } from 'uqr';
import { phone as words } from '../words/network.ts';

/** Blank modules around it that a reader needs (ISO/IEC 18004). */
const QUIET = 4;

/** An address as a square for a camera: always dark on light, or a camera would not read it at night. */
export function Qr({ address }: { readonly address: string }) {
  const { data, size } = encode(address, { ecc: 'M', border: QUIET });
  const d = data.flatMap((row, y) => row.map((dark, x) => (dark ? `M${x} ${y}h1v1h-1z` : ''))).join('');
  return (
    <svg class="qr" viewBox={`0 0 ${size} ${size}`} role="img" shape-rendering="crispEdges">
      <title>{words.qr(address)}</title>
      <rect class="qr-light" width={size} height={size} />
      <path class="qr-dark" d={d} />
    </svg>
  );
}
