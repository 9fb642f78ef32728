/** A piece with the parts that most do without left empty, and the edges that meet. */
import type { Edge, Piece } from '../piece.ts';
import type { Flat } from './joint.ts';

export const piece = (name: string, parts: Partial<Omit<Piece, 'name'>> & Pick<Piece, 'outline'>): Piece => ({
  name,
  count: 1,
  holes: [],
  lines: [],
  edges: [],
  notes: [],
  ...parts,
});

/** An edge that meets another; compared on the middle of the wall, where its own length is taken unless said. */
export const meeting = (edge: Edge, joint: string, side: 'a' | 'b', onMiddle = edge.length): Edge => ({
  ...edge,
  joins: { joint, side, length: onMiddle },
});

/** The two ends of a wall that closes on itself. */
export const seamEdges = ({ top, bottom }: Flat, length: number): Edge[] => [
  meeting({ name: 'left seam', length, along: [top[0]!, bottom[0]!] }, 'seam', 'a'),
  meeting({ name: 'right seam', length, along: [top.at(-1)!, bottom.at(-1)!] }, 'seam', 'b'),
];

/** The four edges of a wall that closes on itself and may stand on a base. */
export function wallEdges(flat: Flat, top: number, bottom: number, side: number, based: boolean): Edge[] {
  const below: Edge = { name: 'bottom', length: bottom, along: flat.bottom };
  return [
    { name: 'top', length: top, along: flat.top },
    based ? meeting(below, 'base', 'a') : below,
    ...seamEdges(flat, side),
  ];
}
