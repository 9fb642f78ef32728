/** The pot as it will stand, small, beside the words on how to make it. */
import type { Mark } from '../../../server/contract/paper.ts';
import { inTheRound } from '../round/in-the-round.ts';
import { boxOf, heightOf, widthOf } from '../shape/measure.ts';
import type { Measured } from '../spec/spec.ts';
import { pathOf } from './ink.ts';

/** @param height that there is, mm; undefined where that is too little for a picture */
export function roundMarks(spec: Measured, width: number, height: number): Mark[] | undefined {
  if (height < 15) return undefined;
  const lines = inTheRound(spec);
  const box = boxOf(lines.flat());
  const scale = Math.min(width / widthOf(box), Math.min(width, height) / heightOf(box));
  const d = lines.map((line) =>
    pathOf(
      line.map(([x, y]) => [(x - box.left) * scale, (y - box.top) * scale]),
      false,
    ),
  );
  return [{ mark: 'path', d: d.join(''), pen: { width: 0.25 } }];
}
