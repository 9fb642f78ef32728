import './pot.css';
import { FAULTS } from '../../server/contract/trade.ts';
import sprite from './faults.svg';

const drawn: readonly string[] = FAULTS;

/** Address of a fault's mark. The user's own faults have the mark of 'other'. */
export const faultMark = (kind: string): string => `${sprite}#${drawn.includes(kind) ? kind : 'other'}`;

/** The mark of a fault, beside its name. */
export const FaultMark = ({ kind }: { readonly kind: string }) => (
  <svg class="fault-mark" viewBox="0 0 24 24" aria-hidden="true">
    <use href={faultMark(kind)} />
  </svg>
);
