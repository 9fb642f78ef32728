/** Colours of the demo's drawn pictures: made up, as its glazes are. */

/** Fired, by the glaze's handle. */
const GLAZES: Readonly<Record<string, string>> = {
  'marram-green': '#6f8257',
  'cuttle-white': '#e6e1d3',
  'gannet-grey': '#8b9194',
  'driftlight-blue': '#6c8fa8',
  'bracken-amber': '#a86a2c',
  'samphire-matt': '#9aa67a',
  'oyster-satin': '#cfc4b4',
  'nightjar-black': '#2b2a2c',
  'quicksilver-run': '#8f8f99',
  'confetti-speckle': '#dcd2c4',
  'madder-rose': '#a8505a',
  'clear-tin': '#e3d3bd',
  'lamplight-gold': '#b08d3c',
};

const CLAYS: Readonly<Record<string, string>> = {
  'fell-white-stoneware': '#d9cfbd',
  'otterfold-buff-stoneware': '#c2a67f',
  'grit-house-groggy-body': '#b39272',
  'red-lane-earthenware': '#b0653f',
};

export const INK = '#2a2622';
export const WALL = '#ece8df';
export const BENCH = '#cdc5b7';

export const clayColour = (clay: string): string => CLAYS[clay] ?? '#c9b99f';

/** @param raw before the firing a glaze is a chalky coat */
export const glazeColour = (glaze: string, raw = false): string => {
  const fired = GLAZES[glaze] ?? '#a9a296';
  return raw ? mixed(fired, '#efe9e1', 0.72) : fired;
};

/** @param share of the second, 0 to 1 */
export function mixed(one: string, other: string, share: number): string {
  const part = (hex: string, at: number) => Number.parseInt(hex.slice(at, at + 2), 16);
  const blend = [1, 3, 5].map((at) =>
    Math.round(part(one, at) * (1 - share) + part(other, at) * share)
      .toString(16)
      .padStart(2, '0'),
  );
  return `#${blend.join('')}`;
}
