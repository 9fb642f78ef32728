/** A made-up day of two people who draw kilns, note faults, grade, price, begin and take back, each on a phone. */
import { seeded } from './seeded.ts';

export interface Step {
  readonly device: 0 | 1;
  readonly id: string;
  readonly command: string;
  readonly input: object;
}

export const LOTS = 60;
export const lotId = (n: number): string => `01980000-0000-7000-8000-0000000001${String(n).padStart(2, '0')}`;

const FAULTS = ['pinholes', 'runs', 'crawling', 'crazing', 'specks'] as const;
const ZONES = ['inside', 'outside', 'rim', 'foot'] as const;

const lookedOver = (kind: string) => [
  { count: 3, grade: 'first' },
  { count: 1, grade: 'second', faults: [{ kind, zone: 'foot' }] },
];

/**
 * More steps than are wanted: some will turn out not to be possible. Facts of which there is one (a grade,
 * a price) are noted on the phone of whoever works on that lot; faults and notes by both.
 */
export function stepsOf(seed: number, count: number): readonly Step[] {
  const chance = seeded(seed);
  const pick = <T>(from: readonly T[]): T => from[Math.floor(chance() * from.length)]!;
  const steps: Step[] = [];
  const begun: string[][] = [[], []];
  for (let n = 0; n < count; n++) {
    const id = `01990000-0000-7000-8000-${String(n).padStart(12, '0')}`;
    const device = chance() < 0.5 ? 0 : 1;
    const any = lotId(Math.floor(chance() * LOTS));
    const own = lotId(Math.floor(chance() * (LOTS / 2)) * 2 + device);
    const roll = chance();
    const step = (command: string, input: object) => steps.push({ device, id, command, input });
    const undone = steps.filter((it) => it.device === device && it.command !== 'entry.strike').slice(-6);
    if (roll < 0.34) step('fault.find', { piece: any, kind: pick(FAULTS), zone: pick(ZONES), count: 1 });
    else if (roll < 0.4) step('piece.grade', { piece: own, first: 4, firing: 'G1' });
    else if (roll < 0.5)
      step('piece.look-over', { piece: own, firing: 'G1', parts: lookedOver(pick(FAULTS)) });
    else if (roll < 0.6) step('piece.note', { piece: any, note: `seen at ${n}` });
    else if (roll < 0.67) step('piece.price', { piece: own, price: { amount: 1_000 + n, currency: 'GBP' } });
    else if (roll < 0.73)
      step('repair.decide', { piece: own, method: pick(['grind', 'refire']), fault: 'runs' });
    else if (roll < 0.83) {
      const piece = `01990000-0000-7000-9000-${String(n).padStart(12, '0')}`;
      begun[device]!.push(piece);
      step('piece.begin', { piece, count: 2, form: 'beaker' });
    } else if (roll < 0.9 && begun[device]!.length > 0)
      step('piece.move-on', {
        piece: pick(begun[device]!),
        stage: pick(['leather-hard', 'bone-dry']),
        count: 2,
      });
    else if (undone.length > 0) step('entry.strike', { command: pick(undone).id });
  }
  steps.push({
    device: 0,
    id: '01990000-0000-7000-8000-fffffffffff0',
    command: 'firing.draw',
    input: { firing: 'G1' },
  });
  return steps;
}
