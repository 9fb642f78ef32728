import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type Chances, TRUTH } from '../../server/demo/truth.ts';

const page = readFileSync(new URL('../../docs/explanation/demo.md', import.meta.url), 'utf8');
const percent = (chance: number) => `${Number((chance * 100).toFixed(2))} %`;

const rows = (tables: Readonly<Record<string, Chances>>, also = '') =>
  Object.entries(tables).flatMap(([cause, faults]) =>
    Object.entries(faults).map(([fault, chance]) => `| ${cause}${also} | ${fault} | ${percent(chance)} |`),
  );

describe('what the docs say of the demo', () => {
  const { background, glazes, bisque, lowestShelf, repairs } = TRUTH;
  const causes = [
    ...rows({ background }),
    ...rows(glazes),
    ...rows(bisque),
    ...rows(lowestShelf, ', lowest shelf'),
  ];

  it.each([...causes, ...rows(repairs)])('is so: %s', (row) => {
    expect(page).toContain(row);
  });

  it('names no cause and no repair that is not there', () => {
    expect(page.match(/^\| .* %.*\|$/gm)).toHaveLength(causes.length + rows(repairs).length);
  });

  it('tells how ware was bisqued, how firings differ, and the luck of Confetti Speckle', () => {
    const { bisquedByDay, firingSpread, beforeGlazing, confetti } = TRUTH;
    const said = page.replace(/\s+/g, ' ');
    expect(said).toContain(
      `${percent(bisquedByDay['samphire-matt'])} of the ware that gets it was bisque fired by day, against ${percent(bisquedByDay.others)} of other ware`,
    );
    expect(said).toContain(`standard deviation of its logarithm ${firingSpread}`);
    expect(said).toContain(
      `${percent(beforeGlazing.drying)} crack in drying, and ${percent(beforeGlazing.bisque)} are lost in the bisque`,
    );
    const [one, two] = confetti;
    expect(said).toContain(
      `of ${one.pieces} and of ${two.pieces}, and of each ${one.seconds} came out as seconds`,
    );
    expect(two.seconds).toBe(one.seconds);
  });
});
