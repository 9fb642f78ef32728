/** The shop's settings, tariff tables and downloads: small streams of their own. */
import type { StreamKind } from '../../../server/contract/streams.ts';
import { timesInWords } from '../days.ts';
import type { ShopData } from '../events.ts';
import type { TariffFacts } from '../post/tariff-facts.ts';
import { type ShopFacts, UNTIL_SAID } from '../shop-facts.ts';
import { dayOf } from './order.ts';

export const SETTINGS = 'settings';
export const SETTINGS_STREAM = `shop:${SETTINGS}`;

export interface Shop {
  readonly facts: ShopFacts;
  readonly set: boolean;
}

export const shopKind: StreamKind<Shop> = {
  prefix: 'shop',
  initial: () => ({ facts: UNTIL_SAID, set: false }),
  evolve: (state, { name, data }) =>
    name === 'shop.set' ? { facts: data as ShopData<'shop.set'>, set: true } : state,
  legal: () => undefined,
};

export interface Tariff {
  readonly tariff: string;
  /** By the day from which each holds, the earliest first. */
  readonly versions: readonly TariffFacts[];
}

export const tariffKind: StreamKind<Tariff> = {
  prefix: 'tariff',
  initial: (tariff) => ({ tariff, versions: [] }),
  evolve: (state, { name, data }) => {
    if (name !== 'tariff.written') return state;
    const facts = data as ShopData<'tariff.written'>;
    const others = state.versions.filter((one) => one.from !== facts.from);
    return { ...state, versions: [...others, facts].sort((a, b) => (a.from < b.from ? -1 : 1)) };
  },
  legal: () => undefined,
};

/** Of a link that was withdrawn, for whoever opens it. */
export const TAKEN_BACK = 'This link was taken back. Write to whoever sent it to you.';

export interface Download {
  readonly download: string;
  readonly granted?: ShopData<'download.granted'>;
  readonly times: number;
  readonly last?: string;
  readonly withdrawn: boolean;
}

export const downloadKind: StreamKind<Download> = {
  prefix: 'download',
  initial: (download) => ({ download, times: 0, withdrawn: false }),
  evolve: (state, { name, data, happenedAt }) => {
    if (name === 'download.granted') return { ...state, granted: data as ShopData<'download.granted'> };
    if (name === 'download.handed-out')
      return { ...state, times: (data as ShopData<'download.handed-out'>).time, last: dayOf(happenedAt) };
    if (name === 'download.withdrawn') return { ...state, withdrawn: true };
    return state;
  },
  legal: (state, { name, data, happenedAt }) => {
    if (name === 'download.granted') return state.granted ? 'This download was granted already.' : undefined;
    if (!state.granted) return 'There is no such download at that time.';
    if (name !== 'download.handed-out') return undefined;
    if (state.withdrawn) return TAKEN_BACK;
    const { until, most } = state.granted;
    if (dayOf(happenedAt) > until) return `This download ended on ${until}.`;
    if (state.times >= most)
      return `This download was fetched ${timesInWords(most)}, which is as often as it could be.`;
    return (data as ShopData<'download.handed-out'>).time === state.times + 1
      ? undefined
      : 'It was fetched at the same moment; try again.';
  },
};
