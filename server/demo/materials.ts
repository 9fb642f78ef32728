/** Clays, glazes, schedules and kilns of Hollin Yard Pottery; all invented. */
import { handleOf } from '../contract/studio/values.ts';

const gbp = (amount: number) => ({ amount, currency: 'GBP' });

export const CLAYS = [
  { name: 'Fell White stoneware', coneLow: '5', coneHigh: '7', shrinkage: 0.12 },
  { name: 'Otterfold Buff stoneware', coneLow: '5', coneHigh: '7', shrinkage: 0.115 },
  { name: 'Grit House groggy body', coneLow: '4', coneHigh: '8', shrinkage: 0.09 },
  { name: 'Red Lane earthenware', coneLow: '06', coneHigh: '02', shrinkage: 0.08 },
] as const;

/** `cost` is of a kilogram, dry. */
export const GLAZES = [
  { name: 'Marram Green', cone: '6', cost: gbp(620) },
  { name: 'Cuttle White', cone: '6', cost: gbp(540) },
  { name: 'Gannet Grey', cone: '6', cost: gbp(580) },
  { name: 'Driftlight Blue', cone: '6', cost: gbp(760) },
  { name: 'Bracken Amber', cone: '6', cost: gbp(560) },
  { name: 'Samphire Matt', cone: '6', cost: gbp(690) },
  { name: 'Oyster Satin', cone: '6', cost: gbp(650) },
  { name: 'Nightjar Black', cone: '6', cost: gbp(600) },
  { name: 'Quicksilver Run', cone: '6', cost: gbp(3_400), costly: true, fluid: true },
  { name: 'Confetti Speckle', cone: '6', cost: gbp(2_900), costly: true },
  { name: 'Madder Rose', cone: '04', cost: gbp(880) },
  { name: 'Clear Tin', cone: '04', cost: gbp(720) },
  { name: 'Lamplight Gold', cone: '018', cost: gbp(96_000), costly: true },
] as const;

const segment = (rate: number, target: number, hold = 0) => ({ rate, target, hold });

export const SCHEDULES = [
  {
    name: 'Overnight Bisque 06',
    role: 'bisque',
    cone: '06',
    segments: [segment(60, 120, 60), segment(90, 600), segment(110, 999, 15)],
  },
  {
    name: 'Daytime Bisque 06',
    role: 'bisque',
    cone: '06',
    segments: [segment(90, 120, 20), segment(180, 600), segment(200, 1005)],
  },
  { name: 'Glaze 6 Plain', role: 'glaze', cone: '6', segments: [segment(150, 600), segment(120, 1222, 5)] },
  { name: 'Glaze 6 Soak', role: 'glaze', cone: '6', segments: [segment(150, 600), segment(120, 1212, 25)] },
  {
    name: 'Glaze 6 Slow Cool',
    role: 'glaze',
    cone: '6',
    segments: [segment(150, 600), segment(120, 1218, 10), segment(-150, 1040, 30), segment(-60, 760)],
  },
  {
    name: 'Earthenware 04',
    role: 'glaze',
    cone: '04',
    segments: [segment(120, 600), segment(110, 1060, 15)],
  },
  { name: 'Lustre 018', role: 'lustre', cone: '018', segments: [segment(80, 400), segment(120, 717, 10)] },
] as const;

/** mm and kW. Thimble is a test kiln that a neighbour lends, for lustre and nothing else. */
export const KILNS = [
  { name: 'Big Round', shape: 'many-sided', width: 560, depth: 560, height: 690, shelves: 5, power: 9.6 },
  {
    name: 'Little Square',
    shape: 'rectangular',
    width: 300,
    depth: 300,
    height: 340,
    shelves: 3,
    power: 3.2,
  },
  { name: 'Thimble', shape: 'rectangular', width: 180, depth: 180, height: 200, shelves: 2, power: 1.8 },
] as const;

const NAMES = new Map(
  [...CLAYS, ...GLAZES, ...SCHEDULES, ...KILNS].map(({ name }) => [handleOf(name), name] as const),
);
export const nameOf = (handle: string): string => NAMES.get(handle) ?? handle;
