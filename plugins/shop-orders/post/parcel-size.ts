/** What a parcel weighs and measures, from what is in it and what it is packed in. */
import type { Packaging } from '../shop-facts.ts';
import type { ItemFacts, Measures } from '../values.ts';
import { inOrder } from './formats.ts';

export interface Packed {
  readonly facts: ItemFacts;
  readonly quantity: number;
}

/** g; undefined where something's weight is not known. */
export function weightOf(packed: readonly Packed[], packaging?: Packaging): number | undefined {
  let sum = packaging?.weight ?? 0;
  for (const { facts, quantity } of packed) {
    if (facts.weight === undefined) return undefined;
    sum += facts.weight * quantity;
  }
  return sum;
}

/** A box measures what it measures; in a bag things lie flat upon each other. */
export function sizeOf(packed: readonly Packed[], packaging?: Packaging): Measures | undefined {
  if (packaging?.size) return packaging.size;
  if (packed.some(({ facts }) => facts.size === undefined)) return undefined;
  const sides = packed.map(({ facts, quantity }) => ({ quantity, sides: inOrder(facts.size!) }));
  return {
    length: Math.max(...sides.map(({ sides: [length] }) => length)),
    width: Math.max(...sides.map(({ sides: [, width] }) => width)),
    thickness: sides.reduce((sum, { quantity, sides: [, , thin] }) => sum + thin * quantity, 0),
  };
}

/** Whether all lies in the box side by side or upon each other is not known; that no single thing fits is. */
export function tooLargeFor(packed: readonly Packed[], packaging: Packaging): string | undefined {
  if (!packaging.size) return undefined;
  const box = inOrder(packaging.size);
  const large = packed.find(
    ({ facts }) => facts.size && inOrder(facts.size).some((side, at) => side > box[at]!),
  );
  return large && `${large.facts.name} does not fit into ${packaging.name}.`;
}
