/** A thing that is sold, and how many there are of it. */
import type { StreamKind } from '../../../server/contract/streams.ts';
import type { ShopData } from '../events.ts';
import type { Content, ItemFacts } from '../values.ts';

export interface Item {
  readonly item: string;
  readonly facts?: ItemFacts;
  readonly version: number;
  /** What its file was called when it came in. */
  readonly called?: string;
  /** How many there are by the books; below zero only where the user sold more than there were. */
  readonly stock: number;
  /** Whether anybody ever said how many there are. */
  readonly counted: boolean;
  readonly made: number;
  readonly gone: number;
  readonly broken: number;
  /** Of those since the last count, how many went although the books said that there were not enough. */
  readonly anyway: number;
  /** Found more (or, below zero, fewer) than the books said, over all stocktakes. */
  readonly found: number;
  readonly changedSeq: number;
}

const start = (item: string): Item => ({
  item,
  version: 0,
  stock: 0,
  counted: false,
  made: 0,
  gone: 0,
  broken: 0,
  anyway: 0,
  found: 0,
  changedSeq: 0,
});

/** How many of an item are in a parcel. */
export const inParcel = (contents: readonly Content[], item: string): number =>
  contents.reduce((sum, it) => sum + (it.item === item ? it.quantity : 0), 0);

/** What goes before anybody counted says nothing of how many are left. */
const less = (state: Item, gone: number): number => (state.counted ? state.stock - gone : 0);

function evolve(state: Item, name: string, data: unknown): Item {
  switch (name) {
    case 'item.added':
    case 'item.changed':
      return { ...state, facts: (data as ShopData<'item.added'>).facts, version: state.version + 1 };
    case 'item.file-given': {
      const { file, called } = data as ShopData<'item.file-given'>;
      const { paper: _, ...facts } = state.facts!;
      return { ...state, facts: { ...facts, file }, called, version: state.version + 1 };
    }
    case 'stock.printed':
    case 'stock.made': {
      const { count } = data as ShopData<'stock.made'>;
      return { ...state, stock: state.stock + count, made: state.made + count, counted: true };
    }
    case 'stock.broken': {
      const { count } = data as ShopData<'stock.broken'>;
      return { ...state, stock: less(state, count), broken: state.broken + count };
    }
    case 'stock.counted': {
      const { counted } = data as ShopData<'stock.counted'>;
      const found = state.counted ? state.found + counted - state.stock : state.found;
      return { ...state, stock: counted, counted: true, anyway: 0, found };
    }
    case 'parcel.packed': {
      const { contents, anyway } = data as ShopData<'parcel.packed'>;
      const gone = inParcel(contents, state.item);
      return {
        ...state,
        stock: less(state, gone),
        gone: state.gone + gone,
        anyway: state.anyway + (anyway ? gone : 0),
      };
    }
    case 'parcel.unpacked': {
      const back = inParcel((data as ShopData<'parcel.unpacked'>).contents, state.item);
      return { ...state, stock: less(state, -back), gone: state.gone - back };
    }
    case 'parcel.came-back': {
      const { contents, sound } = data as ShopData<'parcel.came-back'>;
      if (!sound) return state;
      const back = inParcel(contents, state.item);
      return { ...state, stock: less(state, -back), gone: state.gone - back };
    }
    default:
      return state;
  }
}

/** A pot is there once, until it is packed. */
const isPot = (state: Item): boolean => state.facts?.kind === 'pot';

/** Why so many cannot be taken; undefined where they can. */
export function shortOf(state: Item, stock: number, wanted: number): string | undefined {
  if (isPot(state) || (state.counted && wanted <= stock)) return undefined;
  const name = state.facts?.name ?? state.item;
  if (!state.counted)
    return `It has not been counted how many of ${name} are in stock, and ${wanted} would go. Count them, or say that it goes anyway.`;
  const there =
    stock <= 0 ? `None of ${name} is` : stock === 1 ? `Only 1 of ${name} is` : `Only ${stock} of ${name} are`;
  return `${there} in stock, and ${wanted} would go. Print or make more, count again, or say that it goes anyway.`;
}

export const itemKind: StreamKind<Item> = {
  prefix: 'item',
  initial: start,
  evolve: (state, { name, data, seq }) => ({ ...evolve(state, name, data), changedSeq: seq }),
  legal: (state, { name, data }) => {
    if (name === 'item.added')
      return state.facts ? `There is already an item called ${state.facts.name}.` : undefined;
    /* What was posted before the item was first taken down is a fact all the same. */
    if (!state.facts && !name.startsWith('parcel.'))
      return `There is no item ${state.item} at that time; add it first.`;
    if (name === 'parcel.packed') {
      const { contents, anyway } = data as ShopData<'parcel.packed'>;
      /* What went anyway does not take back the parcels that were packed in good faith after it. */
      const stock = state.stock + state.anyway;
      return anyway ? undefined : shortOf(state, stock, inParcel(contents, state.item));
    }
    if (name === 'stock.broken') {
      const { count } = data as ShopData<'stock.broken'>;
      if (count > state.stock)
        return `There ${state.stock === 1 ? 'is' : 'are'} only ${Math.max(0, state.stock)} of ${state.facts?.name ?? state.item} by the books, so ${count} cannot have been broken; count again first.`;
    }
    return undefined;
  },
};
