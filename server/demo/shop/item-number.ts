/** An item number with a right check digit (UPU S10). */
import type { Chance } from '../chance.ts';

const WEIGHTS = [8, 6, 4, 2, 3, 5, 9, 7];

export function itemNumber(chance: Chance): string {
  const serial = String(chance.between(0, 99_999_999)).padStart(8, '0');
  const sum = WEIGHTS.reduce((total, weight, at) => total + weight * Number(serial[at]), 0);
  const check = 11 - (sum % 11);
  return `LZ${serial}${check === 10 ? 0 : check === 11 ? 5 : check}GB`;
}
