/** The jug of seven sides that the yard sells as a template, as its measures say it. */
export const FACETED_JUG = {
  form: 'polygon',
  sides: 7,
  bottomSide: 52,
  topSide: 38,
  height: 190,
  thickness: 5,
  seam: 'bevel',
  base: true,
} as const;
/** With its handle. */
export const JUG_WITH_HANDLE = {
  ...FACETED_JUG,
  handle: { length: 190, width: 34, endWidth: 22 },
} as const;
