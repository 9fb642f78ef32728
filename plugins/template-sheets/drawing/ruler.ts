/** The ruler to check the printer with: 100 mm above the line, 4 inches below it. */
import type { Mark } from '../../../server/contract/paper.ts';
import { words } from './ink.ts';

const INCH = 25.4;
export const RULER = {
  mm: 100,
  inches: 4,
  width: 4 * INCH,
  height: 11,
  title: 'A ruler: 100 mm above its line, 4 inches below it',
} as const;
/** From the top of the ruler to its line. */
const LINE = 5.2;
const PEN = { width: 0.2 };

/** Its upper left corner is at 0, 0, where both scales begin. */
export function rulerMarks(): Mark[] {
  const ticks: string[] = [`M0 ${LINE}H${RULER.width}`];
  for (let at = 0; at <= RULER.mm; at++) ticks.push(`M${at} ${LINE}V${LINE - tall(at)}`);
  for (let eighth = 0; eighth <= RULER.inches * 8; eighth++)
    ticks.push(
      `M${Math.round(eighth * INCH * 125) / 1_000} ${LINE}v${eighth % 8 === 0 ? 3 : eighth % 4 === 0 ? 2.2 : 1.4}`,
    );
  const label = { align: 'middle', vertical: 'middle' } as const;
  const tens = [50, 100].map((at) =>
    words(
      at === 100 ? '100 mm' : String(at),
      at,
      0.9,
      2.1,
      at === 100 ? { ...label, align: 'right' } : label,
    ),
  );
  const inches = [1, 2, 3].map((at) => words(String(at), at * INCH - 1.2, LINE + 4, 2.1, label));
  return [
    { mark: 'path', d: ticks.join(''), pen: PEN },
    words('0', 0.4, 0.9, 2.1, { vertical: 'middle' }),
    ...tens,
    ...inches,
    words('4 inches', RULER.width, LINE + 4.2, 2.1, { align: 'right', vertical: 'middle' }),
  ];
}

const tall = (at: number): number => (at % 10 === 0 ? 3 : at % 5 === 0 ? 2.2 : 1.2);
