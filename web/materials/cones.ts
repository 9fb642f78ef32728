/** Cones from the softest: '022' to '01', then '1' to '14'. */
export const CONES: readonly string[] = [
  ...Array.from({ length: 22 }, (_, n) => `0${22 - n}`),
  ...Array.from({ length: 14 }, (_, n) => String(n + 1)),
];
