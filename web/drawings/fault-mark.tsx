import './pot.css';
import { FAULTS } from '../../server/contract/trade.ts';
import sprite from './faults.svg';

const drawn: readonly string[] = FAULTS;

/** The mark of a fault, beside its name. The user's own faults have the mark of 'other'. */
export const FaultMark = ({ kind }: { readonly kind: string }) => (
  <svg class="fault-mark" viewBox="0 0 24 24" aria-hidden="true">
    <use href={`${sprite}#${drawn.includes(kind) ? kind : 'other'}`} />
  </svg>
);
