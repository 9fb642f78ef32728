/** From the fired size that is wanted to the wet clay that is cut. */
import type { Measured } from './spec.ts';

/**
 * Linear shrinkage is the loss of length as a share of the plastic (wet) length, ASTM C326: wet = fired / (1 − s).
 * @param shrinkage share from 0 to below 1
 */
export const wetFactor = (shrinkage = 0): number => 1 / (1 - shrinkage);

const MEASURES = {
  cylinder: ['diameter', 'height'],
  frustum: ['bottom', 'top', 'height'],
  polygon: ['bottomSide', 'topSide', 'height'],
  oval: ['length', 'width', 'height'],
  box: ['length', 'width', 'height', 'corner'],
  bowl: ['rim', 'depth', 'foot'],
  sphere: ['diameter', 'opening'],
} as const satisfies Record<Measured['form'], readonly string[]>;

/** The form's own measures, those left out not among them; mm. */
export function measuresOf(spec: Measured): Record<string, number> {
  const given = spec as unknown as Record<string, number | undefined>;
  return Object.fromEntries(
    MEASURES[spec.form].flatMap((name) => (given[name] === undefined ? [] : [[name, given[name]]])),
  );
}

/** The same form as a larger or smaller size of a set: wall, joints and darts stay as they are. */
export function scaled<S extends Measured>(spec: S, by: number): S {
  const measures = Object.entries(measuresOf(spec)).map(([name, value]) => [name, value * by]);
  const { handle } = spec;
  return {
    ...spec,
    ...Object.fromEntries(measures),
    ...(handle ? { handle: handleScaled(handle, by) } : {}),
  };
}

type Handle = NonNullable<Measured['handle']>;
const handleScaled = (handle: Handle, by: number): Handle => ({
  ...handle,
  length: handle.length * by,
  width: handle.width * by,
  ...(handle.endWidth === undefined ? {} : { endWidth: handle.endWidth * by }),
});
