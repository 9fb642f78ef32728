import './pot.css';
import { REPAIRS } from '../../server/contract/trade.ts';
import sprite from './repairs.svg';

/** `none`: it is left as it is. */
const drawn: readonly string[] = [...REPAIRS, 'none'];

/** The mark of a repair, beside its name. The user's own repairs have the mark of 'other'. */
export const RepairMark = ({ method }: { readonly method: string }) => (
  <svg class="fault-mark" viewBox="0 0 24 24" aria-hidden="true">
    <use href={`${sprite}#${drawn.includes(method) ? method : 'other'}`} />
  </svg>
);
