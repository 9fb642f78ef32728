/** What a fault's guide suspects, looked for on the piece that was come from. */
import { describe, expect, test } from 'vitest';
import { guideAddress } from '../../web/guide/guide-answer.ts';
import { hasOn } from '../../web/guide/on-piece.ts';

const glazing = (glaze: string) => ({ seq: 1, at: '2026-05-01', layers: [{ glaze, coats: 1 }] });
const passage = (role: 'bisque' | 'glaze', schedule: string, more: object = {}) => ({
  ...{ seq: 2, firing: 'f', kiln: 'big-round', kilnName: '', scheduleName: '', packedAt: '2026-05-01' },
  ...{ state: 'drawn' as const, glazings: [], role, schedule, ...more },
});
const bowl = {
  clay: 'fell-white',
  glazings: [glazing('marram-green')],
  passages: [
    passage('bisque', 'daytime-bisque-06', { kiln: 'little-square' }),
    passage('glaze', 'glaze-6-soak', { shelf: 2, glazings: [glazing('quicksilver-run')] }),
  ],
};

describe('a bowl', () => {
  test.each([
    ['glaze', 'marram-green', true],
    // Ground off since, but on it in the fire.
    ['glaze', 'quicksilver-run', true],
    ['glaze', 'cuttle-white', false],
    ['clay', 'fell-white', true],
    ['bisque-schedule', 'daytime-bisque-06', true],
    ['schedule', 'daytime-bisque-06', false],
    ['schedule', 'glaze-6-soak', true],
    ['kiln', 'big-round', true],
    ['kiln', 'little-square', false],
    ['shelf', 'big-round|2', true],
    ['shelf', 'big-round|3', false],
    ['coats', '3', false],
  ])('%s %s: %s', (by, id, has) => {
    expect(hasOn(bowl, { by, id })).toBe(has);
  });
});

test('a guide’s address carries the piece it was come from', () => {
  expect(guideAddress('colour-off', 'p.2')).toBe(
    '/review/defect-rates/fault-guide?fault=colour-off&piece=p.2',
  );
});
