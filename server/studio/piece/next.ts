/** What can be done with a piece next, and why the rest cannot: the same checks that judge an entry. */
import type { Entry } from '../../contract/entry.ts';
import type { Portion } from '../../contract/studio/state.ts';
import { lotOf } from '../../contract/studio/values.ts';
import { legalOnLot } from './legal.ts';

export interface NextMove {
  /** Name of the command. */
  readonly command: string;
  /** Why it is not possible now; absent where it is. */
  readonly why?: string;
}

/** The event that each command would record, with the least that its check looks at. */
const TRIALS: Readonly<Record<string, (p: Portion) => { name: string; data: object }>> = {
  'piece.move-on': (p) => ({
    name: 'piece.moved-on',
    data: { piece: p.piece, stage: p.stage === 'made' ? 'leather-hard' : 'bone-dry', count: p.count },
  }),
  'glaze.apply': (p) => ({ name: 'glaze.applied', data: { piece: p.piece, layers: [] } }),
  'firing.pack bisque': (p) => ({
    name: 'firing.packed',
    data: { role: 'bisque', places: [{ piece: p.piece, count: p.count }] },
  }),
  'firing.pack glaze': (p) => ({
    name: 'firing.packed',
    data: { role: 'glaze', places: [{ piece: p.piece, count: p.count }] },
  }),
  'fault.find': (p) => ({ name: 'fault.found', data: { piece: p.piece, count: 1 } }),
  'piece.grade': (p) => ({
    name: 'piece.graded',
    data: { piece: p.piece, first: p.count, second: 0, waster: 0 },
  }),
  'repair.decide': (p) => ({ name: 'repair.decided', data: { piece: p.piece, count: p.count } }),
  'repair.do': (p) => ({ name: 'repair.done', data: { piece: p.piece, count: p.count } }),
  'repair.decline': (p) => ({ name: 'repair.declined', data: { piece: p.piece, count: p.count } }),
  'piece.tell-owner': (p) => ({ name: 'piece.owner-told', data: { piece: p.piece, count: p.count } }),
  'lot.split': (p) => ({
    name: 'lot.split',
    data: { piece: p.piece, into: [{ piece: `${p.piece}.x`, count: 1 }] },
  }),
  'piece.leave': (p) => ({ name: 'piece.left', data: { piece: p.piece, count: p.count, how: 'given' } }),
  'piece.return': (p) => ({ name: 'piece.returned', data: { piece: p.piece, count: p.count } }),
};

export function nextMoves(portion: Portion): NextMove[] {
  const lot = { lot: lotOf(portion.piece), portions: [portion] };
  return Object.entries(TRIALS).map(([command, trial]) => {
    const { name, data } = trial(portion);
    const why = legalOnLot(lot, { name, data } as Entry);
    return why === undefined ? { command } : { command, why };
  });
}
