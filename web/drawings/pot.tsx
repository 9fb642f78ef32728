import './pot.css';
import { drawings } from '../words/drawings.ts';
import { faultNames, named, zoneNames } from '../words/trade.ts';
import { faultMark } from './fault-mark.tsx';
import sprite from './pot.svg';

/** Zones that the pot is drawn with, those behind first. */
const DRAWN = ['lid', 'handle', 'outside', 'inside', 'rim', 'base', 'foot', 'detail'] as const;
/** What not every pot has: drawn where it can be picked or has something on it. */
const NOT_ALWAYS: readonly string[] = ['lid', 'handle', 'detail'];

/** Middle of each zone, where a fault's mark stands. */
const MIDDLE: Readonly<Record<string, readonly [x: number, y: number]>> = {
  inside: [76, 112],
  outside: [122, 148],
  rim: [100, 55],
  base: [100, 176],
  foot: [120, 187],
  handle: [174, 108],
  lid: [100, 36],
  detail: [125, 110],
};
const MARK = 42;

export interface FaultAt {
  readonly kind: string;
  readonly zone?: string;
}

interface Props {
  /** Zones that are filled. */
  readonly filled: readonly string[];
  /** The zone that is being worked on. */
  readonly chosen?: string;
  readonly faults?: readonly FaultAt[];
  /** A finger on the drawing picks the zone; the same choice stands beside it as words. */
  readonly onPick?: (zone: string) => void;
  readonly size?: 'small' | 'large';
}

/** A pot in half section, as in an excavator's drawing: inside on the left, outside on the right. */
export function Pot({ filled, chosen, faults = [], onPick, size = 'small' }: Props) {
  const placed = faults.filter((fault) => fault.zone && Object.hasOwn(MIDDLE, fault.zone));
  const used = [...filled, ...placed.map((fault) => fault.zone)];
  const drawn = DRAWN.filter((zone) => onPick || used.includes(zone) || !NOT_ALWAYS.includes(zone));
  const state = (zone: string) =>
    zone === chosen ? 'zone chosen' : filled.includes(zone) ? 'zone filled' : 'zone';
  const label = drawings.pot(
    filled.map((zone) => named(zoneNames, zone)),
    placed.map((fault) => drawings.faultOn(named(faultNames, fault.kind), named(zoneNames, fault.zone!))),
  );
  return (
    <svg class={`pot ${size} ${onPick ? 'picks' : ''}`} viewBox="0 0 200 210" role="img" aria-label={label}>
      <use class="outline" href={`${sprite}#outline`} />
      {drawn.map((zone) => (
        // biome-ignore lint/a11y/noStaticElementInteractions: the same choice stands beside it as radio buttons
        <use
          key={zone}
          class={state(zone)}
          href={`${sprite}#${zone}`}
          data-zone={zone}
          onClick={onPick && (() => onPick(zone))}
        />
      ))}
      {placed.map((fault, n) => (
        <FaultOn key={`${fault.kind} ${n}`} fault={fault} nth={n} chosen={fault.zone === chosen} />
      ))}
    </svg>
  );
}

/** Several marks on one zone stand a little beside one another. */
function FaultOn({
  fault,
  nth,
  chosen,
}: {
  readonly fault: FaultAt;
  readonly nth: number;
  readonly chosen: boolean;
}) {
  const [x, y] = MIDDLE[fault.zone!]!;
  const aside = (nth % 3) * 6;
  return (
    <use
      class={chosen ? 'fault-on on-chosen' : 'fault-on'}
      href={faultMark(fault.kind)}
      x={x - MARK / 2 + aside}
      y={y - MARK / 2 + aside}
      width={MARK}
      height={MARK}
    />
  );
}
