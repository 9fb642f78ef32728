/** Faults as they are drawn on the demo's pictures, and the words that say that it is a drawing. */
import type { Chance } from '../chance.ts';
import { INK } from './colours.ts';
import type { Box } from './shapes.ts';

/** Letters of one stroke, on a grid of 4 by 6. */
const LETTERS: Readonly<Record<string, string>> = {
  A: 'M0 6L2 0L4 6M1 4H3',
  D: 'M0 0V6H2L4 4V2L2 0Z',
  E: 'M4 0H0V6H4M0 3H3',
  F: 'M4 0H0V6M0 3H3',
  H: 'M0 0V6M4 0V6M0 3H4',
  M: 'M0 6V0L2 3L4 0V6',
  N: 'M0 6V0L4 6V0',
  O: 'M1 0H3L4 1V5L3 6H1L0 5V1Z',
  R: 'M0 6V0H3L4 1V2L3 3H0M2 3L4 6',
  T: 'M0 0H4M2 0V6',
  W: 'M0 0L1 6L2 2L3 6L4 0',
};

/** Nobody is to take it for a photograph. */
export function label(x: number, y: number): string {
  const letters = [...'DRAWN FOR THE DEMO'].map((letter, n) =>
    LETTERS[letter] ? `<path transform="translate(${n * 6} 0)" d="${LETTERS[letter]}"/>` : '',
  );
  return `<g transform="translate(${x} ${y}) scale(3)" fill="none" stroke="${INK}" stroke-width="0.7">${letters.join('')}</g>`;
}

type Place = readonly [x: number, y: number];

/** Places on the wall, away from its edges. */
function places(chance: Chance, { x, y, width, height }: Box, many: number): Place[] {
  return Array.from({ length: many }, () => [
    x + (chance.fraction() - 0.5) * width * 0.62,
    y + (0.18 + chance.fraction() * 0.6) * height,
  ]);
}

const dots = (at: readonly Place[], size: number, how: string): string =>
  at.map(([x, y]) => `<circle cx="${x.toFixed(1)}" cy="${y.toFixed(1)}" r="${size}" ${how}/>`).join('');

const DARK = `fill="${INK}" fill-opacity="0.75"`;
const RING = `fill="none" stroke="${INK}" stroke-width="2.5"`;

function drips(chance: Chance, { x, y, width, height }: Box, colour: string): string {
  return [-0.22, 0.02, 0.24]
    .map((side) => {
      const at = x + side * width * 0.8;
      const long = height * 0.12 + chance.between(8, 30);
      const top = y + height * 0.82;
      return `<path d="M${at - 9} ${top}V${top + long}a9 9 0 0 0 18 0V${top}Z" fill="${colour}" stroke="${INK}" stroke-width="2"/>`;
    })
    .join('');
}

function net(chance: Chance, box: Box): string {
  const lines = places(chance, box, 16).map(([x, y]) => {
    const [dx, dy] = [chance.between(-46, 46), chance.between(-46, 46)];
    return `M${x.toFixed(1)} ${y.toFixed(1)}l${dx} ${dy}l${-dy / 2} ${dx / 2}`;
  });
  return `<path d="${lines.join('')}" fill="none" stroke="${INK}" stroke-width="1.2" opacity="0.7"/>`;
}

function crack(chance: Chance, { x, y, height }: Box): string {
  const at = x + chance.between(-40, 40);
  const step = height / 7;
  return `<path d="M${at} ${y}l9 ${step}l-14 ${step}l11 ${step}l-7 ${step}" fill="none" stroke="${INK}" stroke-width="4"/>`;
}

const bare = (chance: Chance, box: Box, clay: string): string =>
  places(chance, box, 5)
    .map(
      ([x, y]) =>
        `<ellipse cx="${x.toFixed(1)}" cy="${y.toFixed(1)}" rx="${chance.between(12, 34)}" ry="${chance.between(10, 22)}" fill="${clay}" stroke="${INK}" stroke-width="2"/>`,
    )
    .join('');

/** @param colours of the glaze on top and of the clay under it */
export function fault(
  kind: string,
  chance: Chance,
  box: Box,
  colours: { readonly glaze: string; readonly clay: string },
): string {
  if (kind === 'runs' || kind === 'stuck') return drips(chance, box, colours.glaze);
  if (kind === 'crazing') return net(chance, box);
  if (kind === 'crack' || kind === 'dunting' || kind === 'broken') return crack(chance, box);
  if (kind === 'crawling' || kind === 'shivering') return bare(chance, box, colours.clay);
  if (kind === 'blisters' || kind === 'bloating') return dots(places(chance, box, 9), 9, RING);
  if (kind === 'stilt-marks') return dots(places(chance, box, 3), 6, RING);
  return dots(places(chance, box, kind === 'pinholes' ? 26 : 14), kind === 'pinholes' ? 2.6 : 4, DARK);
}
