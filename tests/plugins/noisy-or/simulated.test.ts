/** A short form of coverage.prove.ts, to notice when the answer is no longer to be trusted. */
import { describe, expect, test } from 'vitest';
import { blameRows } from '../../../plugins/seconds-tally/blame-rows.ts';
import { drawAll } from '../../../plugins/seconds-tally/noisy-or/draws.ts';
import { buildModel } from '../../../plugins/seconds-tally/noisy-or/model.ts';
import { simulate, type Way } from './simulated.ts';

function tried(way: Way, studios: number) {
  let [held, of, laid, truly] = [0, 0, 0, 0];
  for (let n = 0; n < studios; n++) {
    const studio = simulate(500 + n, way);
    const model = buildModel(studio.observations);
    for (const row of blameRows({ model, draws: drawAll(model, 1, 200) })) {
      if (row.kind !== 'glaze') continue;
      const truth = row.members.reduce((sum, key) => sum + (studio.laid.get(key) ?? 0), 0);
      laid += row.laid;
      truly += truth;
      of += 1;
      if (row.laidLow <= truth + 1e-9 && truth - 1e-9 <= row.laidHigh) held += 1;
    }
  }
  return { held: held / of, laid, truly };
}

describe('in made-up studios', () => {
  test.each(['no zones', 'zones'] as const)(
    '(%s) glazes are laid what they did, within the limits',
    (way) => {
      const { held, laid, truly } = tried(way, 8);
      expect(held).toBeGreaterThan(0.85);
      expect(laid / truly).toBeGreaterThan(0.75);
      expect(laid / truly).toBeLessThan(1.33);
    },
  );
});
