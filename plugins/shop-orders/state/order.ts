/** An order: what was asked for, what has been packed, posted, come back or been lost of it. */
import type { Entry } from '../../../server/contract/entry.ts';
import type { StreamKind } from '../../../server/contract/streams.ts';
import type { Money } from '../../../server/contract/studio/values.ts';
import type { TextRef } from '../../../server/contract/text.ts';
import type { ShopData, ShopEvent } from '../events.ts';
import type { Line, Wants } from '../values.ts';

export interface OrderLine extends Line {
  readonly cancelled: boolean;
}

/** This order's part of a parcel. */
export interface Sent {
  readonly parcel: string;
  readonly contents: readonly { readonly line: string; readonly quantity: number }[];
  readonly state: 'packed' | 'posted' | 'arrived' | 'assumed' | 'lost' | 'came-back';
  readonly packedAt: string;
  readonly postedAt?: string;
  readonly endedAt?: string;
  readonly number?: string;
  readonly service?: string;
  /** Something of it was lost before and is sent again. */
  readonly again: boolean;
}

export interface Granted {
  readonly download: string;
  readonly line: string;
  readonly until: string;
  readonly most: number;
  readonly times: number;
  readonly withdrawn?: boolean;
  /** It went with a message, and not by its link alone. */
  readonly attached?: boolean;
}

/** What can be said of an order from outside, and be said otherwise later. */
export type Said = Omit<ShopData<'order.changed'>, 'order' | 'way' | 'buyer'>;

export interface Order {
  readonly order: string;
  /** Undefined until it is placed. */
  readonly placed?: string;
  readonly number: string;
  readonly source: string;
  readonly buyer?: string;
  readonly name?: TextRef;
  readonly email?: TextRef;
  readonly address?: TextRef;
  readonly postcode?: TextRef;
  readonly country: string;
  readonly promise: string;
  readonly lines: readonly OrderLine[];
  readonly postage?: Money;
  readonly wants?: Wants;
  readonly note?: TextRef;
  /** As a file or feed last had it, whatever was changed by hand since. */
  readonly said: Said;
  /** How often something was said from outside. */
  readonly times: number;
  /** A change from outside that nobody has looked at yet. */
  readonly came?: ShopData<'order.change-came'> & { readonly seq: number };
  readonly parcels: readonly Sent[];
  /** To be sent again, by line. */
  readonly again: Readonly<Record<string, number>>;
  readonly downloads: readonly Granted[];
  readonly refunds: readonly Money[];
  readonly told: readonly { readonly message: string; readonly parcel?: string; readonly at: string }[];
  readonly pictures: readonly (ShopData<'order.picture-came'> & {
    readonly at: string;
    readonly seq: number;
  })[];
  readonly notes: readonly { readonly note: TextRef; readonly at: string }[];
  readonly cancelledAt?: string;
  readonly changedAt: string;
  readonly changedSeq: number;
}

const none = (order: string): Order => ({
  order,
  number: order.slice(order.indexOf('/') + 1),
  source: order.slice(0, order.indexOf('/')),
  country: '',
  promise: '',
  lines: [],
  said: {},
  times: 0,
  parcels: [],
  again: {},
  downloads: [],
  refunds: [],
  told: [],
  pictures: [],
  notes: [],
  changedAt: '',
  changedSeq: 0,
});

export const dayOf = (at: string): string => at.slice(0, 10);

type Fold<Name extends ShopEvent> = (state: Order, data: ShopData<Name>, entry: Entry) => Order;

/** Lines keep what was cancelled of them; new ones are open. */
const withLines = (state: Order, lines: readonly Line[] | undefined): readonly OrderLine[] =>
  lines?.map((one) => ({
    ...one,
    cancelled: state.lines.some((old) => old.line === one.line && old.cancelled),
  })) ?? state.lines;

const heard = (state: Order, way: string, said: Said): Pick<Order, 'said' | 'times'> =>
  way === 'hand'
    ? { said: state.said, times: state.times }
    : { said: { ...state.said, ...said }, times: state.times + 1 };

const withParcel = (state: Order, parcel: string, change: Partial<Sent>): Order => ({
  ...state,
  parcels: state.parcels.map((sent) => (sent.parcel === parcel ? { ...sent, ...change } : sent)),
});

const folds: { readonly [Name in ShopEvent]?: Fold<Name> } = {
  'order.placed': (state, { order: _, way, ...facts }, entry) => {
    const { buyer: __, number: ___, source: ____, ...said } = facts;
    return {
      ...state,
      ...facts,
      placed: dayOf(entry.happenedAt),
      lines: withLines(state, facts.lines),
      said,
      times: way === 'hand' ? 0 : 1,
    };
  },
  'order.changed': (state, { order: _, way, ...facts }) => {
    const { buyer: __, ...said } = facts;
    const { came: ___, ...rest } = state;
    return {
      ...(way === 'hand' ? state : rest),
      ...facts,
      lines: withLines(state, facts.lines),
      ...heard(state, way, said),
    };
  },
  'order.change-came': (state, data, { seq }) => {
    const { order: _, way, buyer: __, cancelled: ___, ...said } = data;
    return { ...state, ...heard(state, way, said), came: { ...data, seq } };
  },
  'order.change-declined': ({ came: _, ...state }) => state,
  'order.cancelled': (state, { lines, way }, entry) => {
    const after = state.lines.map((one) => (lines.includes(one.line) ? { ...one, cancelled: true } : one));
    const { came, ...rest } = state;
    return {
      ...rest,
      ...(came && way === 'hand' && !came.cancelled ? { came } : {}),
      lines: after,
      ...(after.every((one) => one.cancelled) ? { cancelledAt: dayOf(entry.happenedAt) } : {}),
    };
  },
  'order.refunded': (state, { amount }) => ({ ...state, refunds: [...state.refunds, amount] }),
  'order.replaced': (state, { lines }) => {
    const again = { ...state.again };
    for (const { line, quantity } of lines) again[line] = (again[line] ?? 0) + quantity;
    return { ...state, again };
  },
  'order.noted': (state, { note }, { happenedAt: at }) => ({
    ...state,
    notes: [...state.notes, { note, at }],
  }),
  'order.told': (state, { message, parcel }, { happenedAt: at }) => ({
    ...state,
    told: [...state.told, { message, ...(parcel === undefined ? {} : { parcel }), at }],
  }),
  'order.picture-came': (state, data, { happenedAt, seq }) => {
    const before = state.pictures.find((it) => data.sha256 !== undefined && it.sha256 === data.sha256);
    const now = { seq, at: happenedAt, ...before, ...data };
    return { ...state, pictures: [...state.pictures.filter((it) => it !== before), now] };
  },
  'parcel.packed': (state, { parcel, contents }, { happenedAt: packedAt }) => ({
    ...state,
    parcels: [
      ...state.parcels,
      {
        parcel,
        contents: contents
          .filter((it) => it.order === state.order)
          .map(({ line, quantity }) => ({ line, quantity })),
        state: 'packed',
        packedAt,
        again: Object.keys(state.again).length > 0,
      },
    ],
  }),
  'parcel.unpacked': (state, { parcel }) => ({
    ...state,
    parcels: state.parcels.filter((sent) => sent.parcel !== parcel),
  }),
  'parcel.posted': (state, { parcel, number, service }, { happenedAt }) =>
    withParcel(state, parcel, {
      state: 'posted',
      postedAt: dayOf(happenedAt),
      ...(number === undefined ? {} : { number }),
      ...(service === undefined ? {} : { service }),
    }),
  'parcel.arrived': (state, { parcel }, { happenedAt }) =>
    withParcel(state, parcel, { state: 'arrived', endedAt: dayOf(happenedAt) }),
  'parcel.assumed-arrived': (state, { parcel }, { happenedAt }) =>
    withParcel(state, parcel, { state: 'assumed', endedAt: dayOf(happenedAt) }),
  'parcel.lost': (state, { parcel }, { happenedAt }) =>
    withParcel(state, parcel, { state: 'lost', endedAt: dayOf(happenedAt) }),
  'parcel.came-back': (state, { parcel }, { happenedAt }) =>
    withParcel(state, parcel, { state: 'came-back', endedAt: dayOf(happenedAt) }),
  'download.granted': (state, { order: _, item: __, ...granted }) => ({
    ...state,
    downloads: [...state.downloads, { ...granted, times: 0 }],
  }),
  'download.handed-out': (state, { download, time: times, how }) => ({
    ...state,
    downloads: state.downloads.map((it) =>
      it.download === download ? { ...it, times, ...(how === 'message' ? { attached: true } : {}) } : it,
    ),
  }),
  'download.withdrawn': (state, { download }) => ({
    ...state,
    downloads: state.downloads.map((it) => (it.download === download ? { ...it, withdrawn: true } : it)),
  }),
};

/** What of a line is still to be packed. */
export function openOf(order: Order, line: OrderLine): number {
  if (line.cancelled || line.download) return 0;
  const packed = order.parcels
    .flatMap((sent) => sent.contents)
    .reduce((sum, it) => sum + (it.line === line.line ? it.quantity : 0), 0);
  return Math.max(0, line.quantity + (order.again[line.line] ?? 0) - packed);
}

export const openLines = (order: Order) =>
  order.lines.map((one) => ({ ...one, open: openOf(order, one) })).filter((one) => one.open > 0);

/** The day on which the last of it had been posted for the first time; undefined while something is still here. */
export function postedOn(order: Order): string | undefined {
  const post = order.lines.filter((one) => !one.cancelled && !one.download);
  if (post.length === 0) return undefined;
  const parcels = order.parcels
    .filter((sent) => sent.postedAt !== undefined)
    .sort((a, b) => (a.postedAt! < b.postedAt! ? -1 : 1));
  let last = '';
  for (const { line, quantity } of post) {
    let gone = 0;
    const by = parcels.find((sent) => {
      for (const it of sent.contents) if (it.line === line) gone += it.quantity;
      return gone >= quantity;
    });
    if (!by) return undefined;
    if (by.postedAt! > last) last = by.postedAt!;
  }
  return last;
}

export const orderKind: StreamKind<Order> = {
  prefix: 'order',
  initial: none,
  evolve: (state, entry) => {
    const fold = folds[entry.name as ShopEvent] as Fold<ShopEvent> | undefined;
    if (!fold) return state;
    const next = fold(state, entry.data as ShopData<ShopEvent>, entry);
    return { ...next, changedAt: entry.happenedAt, changedSeq: entry.seq };
  },
  legal: (state, entry) => {
    if (entry.name === 'order.placed')
      return state.placed ? `Order ${state.number} was placed already.` : undefined;
    if (!state.placed)
      return `There is no order ${state.number} at that time; place it first, or give a later date.`;
    if (entry.name === 'parcel.packed') return tooMuch(state, entry.data as ShopData<'parcel.packed'>);
    return undefined;
  },
};

/** More of a line in the parcel than is open. */
function tooMuch(state: Order, { contents }: ShopData<'parcel.packed'>): string | undefined {
  for (const it of contents) {
    if (it.order !== state.order) continue;
    const line = state.lines.find((one) => one.line === it.line);
    if (!line) return `Order ${state.number} has no such line.`;
    const open = openOf(state, line);
    if (it.quantity > open)
      return open === 0
        ? `Nothing of that line of order ${state.number} is left to pack.`
        : `Only ${open} of that line of order ${state.number} are left to pack, not ${it.quantity}.`;
  }
  return undefined;
}
