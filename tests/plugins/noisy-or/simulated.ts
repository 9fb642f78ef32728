/** Made-up studios of which it is known what spoiled each piece. All figures are our own choice. */
import uniform from '@stdlib/random-base-uniform';
import type { Observation } from '../../../plugins/seconds-tally/noisy-or/model.ts';

export const WAYS = [
  'no zones',
  'zones',
  'firing shocks',
  'wrong zone',
  'only together',
  'nothing wrong',
] as const;
export type Way = (typeof WAYS)[number];

export interface Simulated {
  readonly observations: readonly Observation[];
  /** Seconds that each cause truly caused: of each second an equal share for all that struck. */
  readonly laid: ReadonlyMap<string, number>;
}

interface Piece {
  readonly outside: string;
  readonly over: string | undefined;
  readonly inside: string | undefined;
  readonly around: readonly string[];
}

type Random = (low?: number, high?: number) => number;

function truth(random: Random, glazes: readonly string[], way: Way): Map<string, number> {
  const chances = new Map<string, number>([['background=', random(0.05, 0.12)]]);
  for (const glaze of glazes) {
    const luck = random();
    const bad = luck < 0.6 ? random(0, 0.02) : luck < 0.85 ? random(0.02, 0.1) : random(0.1, 0.35);
    chances.set(glaze, way === 'nothing wrong' || way === 'only together' ? 0 : bad);
  }
  chances.set('bisque=day', random() < 0.5 ? random(0.05, 0.25) : 0);
  chances.set('clay=buff', random() < 0.5 ? random(0, 0.05) : 0);
  chances.set('schedule=soak', random() < 0.5 ? random(0, 0.05) : 0);
  return chances;
}

const glazesOf = ({ outside, over, inside }: Piece): string[] =>
  [...new Set([outside, over, inside].filter((it) => it !== undefined))].sort();
const inZone = ({ outside, over, inside }: Piece, zone: string): string[] =>
  zone === 'inside' ? [inside ?? outside] : [outside, ...(over ? [over] : [])];

/** The suspects of what a cause did: a glaze's faults are on its zone; other causes crack one in three. */
function suspectsFor(piece: Piece, cause: string, way: Way, random: Random): string[] {
  const isGlaze = cause.startsWith('glaze=');
  if (!isGlaze && way !== 'no zones' && random() < 1 / 3) return [...piece.around];
  const located = way !== 'no zones' && random() < 0.7;
  if (!located) return [...glazesOf(piece), ...piece.around];
  const own = cause === piece.inside ? 'inside' : 'outside';
  const seen = isGlaze ? own : random() < 0.5 || !piece.inside ? 'outside' : 'inside';
  const isWrong = way === 'wrong zone' && piece.inside !== undefined && random() < 0.1;
  const noted = isWrong ? (seen === 'inside' ? 'outside' : 'inside') : seen;
  return [...inZone(piece, noted), ...piece.around];
}

export function simulate(seed: number, way: Way): Simulated {
  const draw = uniform.factory(0, 1, { seed });
  const random: Random = (low = 0, high = 1) => low + (high - low) * draw();
  const glazes = Array.from({ length: 10 }, (_, n) => `glaze=${String.fromCharCode(97 + n)}`);
  const chances = truth(random, glazes, way);
  const weights = glazes.map((_, n) => 1 / (n + 1) ** 1.3);
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const pick = (): string => {
    let left = random(0, total);
    for (const [n, weight] of weights.entries()) {
      left -= weight;
      if (left < 0) return glazes[n]!;
    }
    return glazes[0]!;
  };
  const together = [glazes[1]!, glazes[2]!] as const;
  const byDay = glazes[Math.floor(random(0, 10))]!;
  const laid = new Map<string, number>();
  const observations: Observation[] = [];

  function fire(piece: Piece, shock: number): void {
    const present = [...glazesOf(piece), ...piece.around];
    const firing = piece.around.find((key) => key.startsWith('firing='))!;
    const struck = [...present, 'background='].filter(
      (key) => random() < (key === firing ? shock : (chances.get(key) ?? 0)),
    );
    const has = (glaze: string) => present.includes(glaze);
    if (way === 'only together' && has(together[0]) && has(together[1]) && random() < 0.35)
      struck.push(...together);
    if (struck.length === 0) {
      observations.push({ present, count: 1 });
      return;
    }
    for (const key of struck) laid.set(key, (laid.get(key) ?? 0) + 1 / struck.length);
    const suspects = new Set(struck.flatMap((key) => suspectsFor(piece, key, way, random)));
    observations.push({ present, suspects: [...suspects].sort(), count: 1 });
  }

  const firings = Math.round(random(20, 60));
  for (let firing = 0; firing < firings; firing++) {
    const schedule = random() < 0.4 ? 'schedule=soak' : 'schedule=plain';
    const shock = way === 'firing shocks' && random() < 0.1 ? random(0.2, 0.6) : 0;
    for (let lots = 0; lots < 4; lots++) {
      const outside = pick();
      const clay = random() < 0.35 ? 'clay=buff' : 'clay=white';
      const day = random() < (outside === byDay ? 0.8 : 0.2) ? 'bisque=day' : 'bisque=night';
      const inside = random() < 0.5 ? pick() : undefined;
      const over = random() < 0.2 ? pick() : undefined;
      const count = Math.ceil(random(0, 9));
      const around = [clay, day, `firing=${firing}`, schedule];
      const piece = { outside, over: over === outside ? undefined : over, inside, around };
      for (let n = 0; n < count; n++) fire(piece, shock);
    }
  }
  return { observations: grouped(observations), laid };
}

function grouped(observations: readonly Observation[]): Observation[] {
  const groups = new Map<string, Observation>();
  for (const it of observations) {
    const key = `${it.present.join()} ${it.suspects?.join() ?? '-'}`;
    groups.set(key, { ...it, count: (groups.get(key)?.count ?? 0) + 1 });
  }
  return [...groups.values()];
}
