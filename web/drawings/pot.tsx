import './pot.css';
import { drawings } from '../words/drawings.ts';
import { named, zoneNames } from '../words/trade.ts';
import sprite from './pot.svg';

/** Zones that the pot is drawn with, those behind first. */
const DRAWN = ['lid', 'handle', 'outside', 'inside', 'rim', 'base', 'foot', 'detail'] as const;
/** What not every pot has: drawn where it can be picked or has something on it. */
const NOT_ALWAYS: readonly string[] = ['lid', 'handle', 'detail'];

interface Props {
  /** Zones that are filled. */
  readonly filled: readonly string[];
  /** The zone that is being worked on. */
  readonly chosen?: string;
  /** A finger on the drawing picks the zone; the same choice stands beside it as words. */
  readonly onPick?: (zone: string) => void;
  readonly size?: 'small' | 'large';
}

/** A pot in half section, as in an excavator's drawing: inside on the left, outside on the right. */
export function Pot({ filled, chosen, onPick, size = 'small' }: Props) {
  const words = filled.map((zone) => named(zoneNames, zone));
  const drawn = DRAWN.filter((zone) => onPick || filled.includes(zone) || !NOT_ALWAYS.includes(zone));
  const state = (zone: string) =>
    zone === chosen ? 'zone chosen' : filled.includes(zone) ? 'zone filled' : 'zone';
  return (
    <svg
      class={`pot ${size} ${onPick ? 'picks' : ''}`}
      viewBox="0 0 200 210"
      role="img"
      aria-label={drawings.pot(words)}
    >
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
    </svg>
  );
}
