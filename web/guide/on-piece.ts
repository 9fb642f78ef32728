/** Whether a piece has what a fault's guide suspects: the glaze, the clay, the schedule, the kiln. Pure. */
import type { PieceRow } from '../api/studio.ts';
import type { Row } from '../figures/cell.tsx';

type Known = Pick<PieceRow, 'clay' | 'passages' | 'glazings'>;

export function hasOn({ clay, passages, glazings }: Known, { by, id }: Row): boolean {
  const of = (role: string) => passages.filter((passage) => passage.role === role);
  switch (by) {
    case 'glaze': {
      const all = [...glazings, ...passages.flatMap((passage) => passage.glazings)];
      return all.some(({ layers }) => layers.some(({ glaze }) => glaze === id));
    }
    case 'clay':
      return clay === id;
    case 'bisque-schedule':
      return of('bisque').some(({ schedule }) => schedule === id);
    case 'schedule':
      return of('glaze').some(({ schedule }) => schedule === id);
    case 'kiln':
      return of('glaze').some(({ kiln }) => kiln === id);
    case 'shelf':
      return of('glaze').some(({ kiln, shelf }) => shelf !== undefined && `${kiln}|${shelf}` === id);
    default:
      return false;
  }
}
