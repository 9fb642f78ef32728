/** The picture in the round shows what faces the eye. */
import { expect, test } from 'vitest';
import { inTheRound } from '../../../plugins/template-sheets/round/in-the-round.ts';

test('a pot stands on its near rim: the lowest line of the picture runs between the edges that are seen', () => {
  const lines = inTheRound({ form: 'polygon', sides: 6, bottomSide: 60, height: 180 });
  const foot = lines.filter((line) => line.length === 2 && line.every(([, y]) => y > -30));
  const lowest = Math.max(...lines.flat().map(([, y]) => y));
  // The near half of a hexagon, seen from one side: three of its sides, the nearest corner among them.
  expect(foot.length).toBe(3);
  expect(Math.max(...foot.flat().map(([, y]) => y))).toBe(lowest);
});

test('every form has a picture of finite lines', () => {
  for (const spec of [
    { form: 'cylinder', diameter: 90, height: 120 },
    { form: 'frustum', bottom: 0, top: 120, height: 90 },
    { form: 'oval', length: 200, width: 120, height: 80 },
    { form: 'box', length: 200, width: 120, height: 80, corner: 20 },
    { form: 'box', length: 200, width: 120, height: 80 },
    { form: 'bowl', rim: 200, depth: 80, foot: 60, darts: 8 },
    { form: 'sphere', diameter: 160, gores: 8, opening: 40 },
  ] as const) {
    const lines = inTheRound(spec);
    expect(lines.length).toBeGreaterThan(3);
    expect(lines.flat(2).every(Number.isFinite), spec.form).toBe(true);
  }
});
