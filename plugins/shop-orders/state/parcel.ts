/** A parcel from packing to its end. */
import type { StreamKind } from '../../../server/contract/streams.ts';
import type { Money } from '../../../server/contract/studio/values.ts';
import type { ShopData } from '../events.ts';
import type { Content, Format, Measures } from '../values.ts';
import { dayOf } from './order.ts';

export type ParcelState =
  | 'none'
  | 'packed'
  | 'unpacked'
  | 'posted'
  | 'arrived'
  | 'assumed'
  | 'lost'
  | 'came-back';

export interface Parcel {
  readonly parcel: string;
  readonly state: ParcelState;
  readonly contents: readonly Content[];
  readonly country: string;
  readonly placed: string;
  readonly promise: string;
  readonly weight?: number;
  readonly size?: Measures;
  readonly format?: Format;
  readonly packaging?: string;
  readonly packedOn?: string;
  readonly postedOn?: string;
  /** Arrived, assumed to have arrived, noted as lost, came back. */
  readonly endedOn?: string;
  readonly service?: string;
  readonly number?: string;
  readonly cost?: Money;
  /** Left to come until this day, before anybody is asked. */
  readonly givenUntil?: string;
  readonly tracked: readonly { readonly on: string; readonly said: string }[];
  readonly changedSeq: number;
}

const start = (parcel: string): Parcel => ({
  parcel,
  state: 'none',
  contents: [],
  country: '',
  placed: '',
  promise: '',
  tracked: [],
  changedSeq: 0,
});

function evolve(state: Parcel, name: string, on: string, data: unknown): Parcel {
  switch (name) {
    case 'parcel.packed': {
      const { parcel: _, anyway: __, ...facts } = data as ShopData<'parcel.packed'>;
      return { ...state, ...facts, state: 'packed', packedOn: on };
    }
    case 'parcel.unpacked':
      return { ...state, state: 'unpacked', endedOn: on };
    case 'parcel.posted': {
      const { parcel: _, ...facts } = data as ShopData<'parcel.posted'>;
      return { ...state, ...facts, state: 'posted', postedOn: on };
    }
    case 'parcel.tracked':
      return {
        ...state,
        tracked: [...state.tracked, { on, said: (data as ShopData<'parcel.tracked'>).said }],
      };
    case 'parcel.given-time':
      return { ...state, givenUntil: (data as ShopData<'parcel.given-time'>).until };
    case 'parcel.arrived':
      return { ...state, state: 'arrived', endedOn: on };
    case 'parcel.assumed-arrived':
      return { ...state, state: 'assumed', endedOn: on };
    case 'parcel.lost':
      return { ...state, state: 'lost', endedOn: on };
    case 'parcel.came-back':
      return { ...state, state: 'came-back', endedOn: on };
    default:
      return state;
  }
}

const SAID: Readonly<Record<ParcelState, string>> = {
  none: 'There is no such parcel at that time; pack it first, or give a later date.',
  packed: 'It is packed and has not been posted; post it first.',
  unpacked: 'This parcel was unpacked again.',
  posted: 'It has been posted.',
  arrived: 'It has arrived already.',
  assumed: 'It is taken to have arrived already.',
  lost: 'It was noted as lost.',
  'came-back': 'It came back.',
};

/** What can follow on what. Word that it has come is believed later than that it was lost. */
const AFTER: Readonly<Record<string, readonly ParcelState[]>> = {
  'parcel.packed': ['none'],
  'parcel.unpacked': ['packed'],
  'parcel.posted': ['packed'],
  'parcel.tracked': ['posted', 'arrived', 'assumed', 'lost', 'came-back'],
  'parcel.given-time': ['posted'],
  'parcel.arrived': ['posted', 'assumed', 'lost'],
  'parcel.assumed-arrived': ['posted'],
  'parcel.lost': ['posted', 'assumed'],
  'parcel.came-back': ['posted', 'assumed', 'lost', 'arrived'],
};

export const parcelKind: StreamKind<Parcel> = {
  prefix: 'parcel',
  initial: start,
  evolve: (state, { name, happenedAt, data, seq }) => ({
    ...evolve(state, name, dayOf(happenedAt), data),
    changedSeq: seq,
  }),
  legal: (state, { name }) => {
    const may = AFTER[name];
    if (!may || may.includes(state.state)) return undefined;
    return name === 'parcel.packed' ? 'This parcel was packed already.' : SAID[state.state];
  },
};
