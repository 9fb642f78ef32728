/** What to change next year, in one or two plain sentences, each from a figure. */
import { moneyInWords } from '../../../server/contract/amounts.ts';
import { listed, opened, percent, plural } from '../../../server/contract/reports/words.ts';
import { textbookOf } from '../../../server/contract/textbook.ts';
import type { Change } from './changes.ts';
import type { Mending } from './mending.ts';

/** A row of the worst-glaze reckoning, as far as it is needed here. */
export interface Blamed {
  readonly kind: string;
  readonly label: string;
  readonly what: string;
  readonly ids: readonly string[];
  readonly pieces: number;
  readonly seconds: number;
  readonly laid: number;
  readonly laidLow: number;
  readonly laidHigh: number;
  readonly ownLow: number;
  readonly chanceWorst: number | null;
  readonly verdict: string;
  readonly lost: number;
  readonly currency: string;
}

export interface Grounds {
  readonly pieces: number;
  readonly spoiled: number;
  /** Seconds and wasters without a fault noted. */
  readonly unnoted: number;
  readonly blamed: readonly Blamed[];
  /** Faults of the worst glaze's seconds and wasters, the commonest first. */
  readonly itsFaults: readonly { readonly fault: string; readonly pieces: number }[];
  readonly changes: readonly Change[];
  readonly mending: Mending;
}

/** Chance of being the worst from which a glaze is named. */
const LIKELY = 0.5;
/** Chance to spoil a piece by itself from which a clay or schedule is named: its lower limit. */
const OF_ITS_OWN = 0.02;
/** A repair that was tried so often and worked so seldom is not worth its firing, or so often that it is. */
const TRIED = 10;
const SELDOM = 0.25;
const OFTEN = 0.5;
/** Under this share of faults noted the record says less than it could. */
const UNNOTED = 0.3;
/** Fewer seconds than this leave nothing to say. */
const FEW = 5;

const lower = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

function ofGlaze({ blamed, itsFaults }: Grounds): string | undefined {
  const worst = blamed
    .filter(({ kind }) => kind === 'glaze')
    .toSorted((x, y) => y.laid - x.laid)
    .at(0);
  if (worst?.verdict !== 'adds seconds of its own' || (worst.chanceWorst ?? 0) < LIKELY) return undefined;
  const [most] = itsFaults;
  const money =
    worst.lost > 0 ? ` and ${moneyInWords({ amount: worst.lost, currency: worst.currency })}` : '';
  const what = most
    ? ` Its commonest fault is ${opened(most.fault)} (${most.pieces}); what is usually tried first: ${lower(textbookOf(most.fault).tries[0]!.text)}.`
    : '';
  return `Change how ${worst.label} is used first: about ${Math.round(worst.laid)} of its ${worst.seconds} seconds and wasters${money} are laid at its door.${what}`;
}

function ofFiring({ blamed }: Grounds): string | undefined {
  const next = blamed
    .filter(
      ({ kind, ownLow, laidLow }) =>
        (kind === 'schedule' || kind === 'clay') && ownLow >= OF_ITS_OWN && laidLow >= 1,
    )
    .toSorted((x, y) => y.laid - x.laid)
    .at(0);
  if (!next) return undefined;
  const how =
    next.kind === 'clay'
      ? 'try the same glazes on another clay'
      : 'fire the same ware on another schedule and compare';
  return `${next.label} (${next.what}) adds seconds of its own too: about ${Math.round(next.laid)} of ${next.seconds} are laid at it, so ${how}.`;
}

function ofChange({ changes }: Grounds): string | undefined {
  const worse = changes.find(({ finding, what }) => finding === 'more' && what !== 'all');
  if (!worse) return undefined;
  const { rate, rateBefore } = worse.compared;
  return `${worse.label} (${worse.what}) went from ${percent(rateBefore)} % to ${percent(rate)} %, beyond chance: look for what changed.`;
}

function ofMending({ mending }: Grounds): string | undefined {
  const tried = mending.rows.filter((row) => row.tried >= TRIED);
  const poor = tried.filter((row) => row.high < SELDOM).at(-1);
  if (poor) return `${poor.label} worked on ${poor.worked} of ${poor.tried}: sell those as seconds instead.`;
  const good = tried.find((row) => row.low > OFTEN);
  return good && `${good.label} worked on ${good.worked} of ${good.tried}: go on with it.`;
}

function ofNoting({ spoiled, unnoted }: Grounds): string | undefined {
  if (spoiled < FEW || unnoted / spoiled <= UNNOTED) return undefined;
  return `${unnoted} of ${plural(spoiled, 'second or waster', 'seconds and wasters')} have no fault noted: note the fault and its zone when drawing, and next year’s answer is surer.`;
}

/** At most two; never none. */
export function advice(grounds: Grounds): string[] {
  const { pieces, spoiled } = grounds;
  if (pieces === 0) return [];
  if (spoiled < FEW)
    return [
      `With ${plural(spoiled, 'second or waster', 'seconds and wasters')} of ${plural(pieces, 'piece')} there is nothing to change yet.`,
    ];
  const found = [ofGlaze, ofFiring, ofChange, ofNoting, ofMending].flatMap((of) => of(grounds) ?? []);
  if (found.length > 0) return found.slice(0, 2);
  const looked = listed(['glaze', 'clay', 'schedule']).replace(' and ', ' or ');
  return [
    `No ${looked} can be told from the rest, so the figures ask for no change. Go on noting the fault and its zone at every drawing.`,
  ];
}
