/**
 * What is really so in the demo studio: the true chances behind every fault and repair, so that a
 * reader can check what the reports make of the record. The demo is drawn from these figures and
 * from nothing else. docs/explanation/demo.md says the same in words.
 */
import type { Grade } from '../contract/trade.ts';

export type Chances = Readonly<Record<string, number>>;

/**
 * A glaze-fired piece escapes a fault only if it escapes each cause of it: the background, its
 * glaze, its bisque schedule and its place. Each figure is the chance that this cause alone gives
 * the fault.
 */
export const TRUTH = {
  background: {
    pinholes: 0.02,
    crawling: 0.014,
    specks: 0.016,
    runs: 0.008,
    crack: 0.008,
    warping: 0.01,
    'colour-off': 0.012,
    crazing: 0.008,
    dry: 0.004,
    stuck: 0.004,
    dunting: 0.003,
  },

  /** What a glaze adds. A glaze that is not named here adds nothing: Samphire Matt and Confetti Speckle among them. */
  glazes: {
    'quicksilver-run': { pinholes: 0.18, runs: 0.24 },
    'nightjar-black': { crawling: 0.04 },
    'madder-rose': { 'stilt-marks': 0.12 },
    'clear-tin': { 'stilt-marks': 0.12 },
    'lamplight-gold': { 'metal-scum': 0.12 },
  },

  /** What the bisque adds: too quick a bisque leaves gas in the body. */
  bisque: { 'daytime-bisque-06': { pinholes: 0.22 } },

  /** The lowest shelf of Big Round stays cool. Nothing else about kilns, shelves or glaze schedules matters. */
  lowestShelf: { 'big-round': { dry: 0.07 } },

  /** Share of the ware of a glaze that is bisque fired by day. This, and nothing in the glaze, makes Samphire Matt look bad. */
  bisquedByDay: { 'samphire-matt': 0.85, 'confetti-speckle': 0, others: 0.15 },

  /**
   * Firings differ: all chances of one firing are multiplied by one figure of mean 1, log-normal
   * with this standard deviation of its logarithm. So pieces of one firing are alike.
   */
  firingSpread: 0.3,

  /** What a fault costs. What is left over is still a first. A piece gets the worst of its faults. */
  costs: {
    pinholes: { second: 0.85, waster: 0.05 },
    crawling: { second: 0.75, waster: 0.15 },
    specks: { second: 0.7, waster: 0.02 },
    runs: { second: 0.75, waster: 0.15 },
    crack: { second: 0.2, waster: 0.8 },
    warping: { second: 0.75, waster: 0.1 },
    'colour-off': { second: 0.85, waster: 0.02 },
    crazing: { second: 0.9, waster: 0.1 },
    dry: { second: 0.85, waster: 0.05 },
    stuck: { second: 0.5, waster: 0.5 },
    dunting: { second: 0, waster: 1 },
    'stilt-marks': { second: 0.6, waster: 0 },
    'metal-scum': { second: 0.8, waster: 0.1 },
  },

  /** Chance that a second becomes a first by the repair; otherwise the fault is found again. */
  repairs: {
    pinholes: { 'fill-and-reglaze': 0.5, refire: 0.3 },
    crawling: { 'fill-and-reglaze': 0.55 },
    runs: { grind: 0.6, 'refire-inverted': 0.35 },
    dry: { refire: 0.8 },
    'colour-off': { 'reglaze-over': 0.55 },
    'stilt-marks': { grind: 0.9 },
    specks: { grind: 0.5 },
  },

  /** Cracked or broken before the glaze is on: in drying, and in the bisque. */
  beforeGlazing: { drying: 0.008, bisque: 0.012 },

  /**
   * Confetti Speckle is as good as any other glaze. So few pieces carry it that their rate is all
   * luck, and here the luck is set down beforehand: of the first lot and of the second.
   */
  confetti: [
    { pieces: 6, seconds: 2, fault: 'pinholes' },
    { pieces: 5, seconds: 2, fault: 'specks' },
  ],
} as const satisfies {
  background: Chances;
  glazes: Readonly<Record<string, Chances>>;
  bisque: Readonly<Record<string, Chances>>;
  lowestShelf: Readonly<Record<string, Chances>>;
  bisquedByDay: Chances;
  firingSpread: number;
  costs: Readonly<Record<string, Partial<Record<Grade, number>>>>;
  repairs: Readonly<Record<string, Chances>>;
  beforeGlazing: Chances;
  confetti: readonly { pieces: number; seconds: number; fault: string }[];
};
