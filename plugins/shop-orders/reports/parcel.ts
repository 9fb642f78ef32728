/** One parcel: what is in it, how it can be posted and for what, and its story. */
import { z } from 'zod';
import { type Answered, type Ask, report } from '../../../server/contract/plugin.ts';
import { type Offers, offersFor } from '../post/cheapest.ts';
import { countryName } from '../post/countries.ts';
import { formatOf } from '../post/formats.ts';
import { type Order, orderKind } from '../state/order.ts';
import { type Parcel, parcelKind } from '../state/parcel.ts';
import { storyLines } from '../story.ts';
import { parcelId, type Wants } from '../values.ts';
import { standing } from './in-the-post.ts';
import { nothing } from './order.ts';
import { readFacts, readItems, readTariffs } from './shop-settings.ts';

/** The strictest of what its orders ask for; compensations of two currencies are not compared. */
export function wantsOf(orders: readonly Order[]): Wants {
  const most = orders
    .map((one) => one.wants?.compensation)
    .reduce((a, b) => (!a || (b && b.currency === a.currency && b.amount > a.amount) ? b : a), undefined);
  return {
    tracked: orders.some((one) => one.wants?.tracked),
    ...(most ? { compensation: most } : {}),
  };
}

async function offers(ask: Ask, parcel: Parcel, wants: Wants): Promise<Offers | null> {
  if (parcel.weight === undefined) return null;
  return offersFor(await readTariffs(ask), {
    country: parcel.country,
    weight: parcel.weight,
    wants,
    day: parcel.postedOn ?? ask.today,
    ...(parcel.format ? { format: parcel.format } : {}),
  });
}

const STATES: Readonly<Record<Parcel['state'], string>> = {
  none: '',
  packed: 'packed, not posted yet',
  unpacked: 'taken apart again',
  posted: 'in the post',
  arrived: 'it has come',
  assumed: 'taken to have come',
  lost: 'lost',
  'came-back': 'it came back',
};

async function run(ask: Ask, input: { parcel: string }): Promise<Answered> {
  const parcel = await ask.state(parcelKind, input.parcel);
  if (parcel.state === 'none')
    return {
      ...nothing(),
      sentence: 'There is no such parcel at that time.',
      more: { parcel: null, story: [] },
    };
  const keys = [...new Set(parcel.contents.map((it) => it.order))];
  const [items, story, facts, ...orders] = await Promise.all([
    readItems(ask),
    ask.story(`parcel:${input.parcel}`),
    readFacts(ask),
    ...keys.map((key) => ask.state(orderKind, key)),
  ]);
  const wants = wantsOf(orders);
  const fitted = parcel.weight !== undefined && parcel.size ? formatOf(parcel.weight, parcel.size) : null;
  return {
    ...nothing(),
    sentence: `Parcel to ${countryName(parcel.country)}: ${STATES[parcel.state]}.`,
    more: {
      parcel: {
        ...parcel,
        countryName: countryName(parcel.country),
        packagingName: facts.packagings.find((one) => one.id === parcel.packaging)?.name ?? null,
        contents: parcel.contents.map((it) => ({ ...it, name: items.get(it.item)?.name ?? it.item })),
      },
      orders: orders.map((one) => ({
        order: one.order,
        number: one.number,
        name: one.name ?? null,
        buyer: { person: one.buyer ?? '' },
        email: one.email ?? null,
        address: one.address ?? null,
        postcode: one.postcode ?? null,
        promise: one.promise,
      })),
      late:
        parcel.state === 'posted' && parcel.postedOn
          ? await standing(ask, {
              country: parcel.country,
              posted: parcel.postedOn,
              key: keys[0]!,
              given: parcel.givenUntil ?? null,
            })
          : null,
      wants,
      why: fitted?.why ?? [],
      offers: await offers(ask, parcel, wants),
      story: storyLines(story, (item) => items.get(item)?.name ?? item),
    },
  };
}

export const parcel = report({
  title: 'A parcel’s story',
  unlisted: true,
  input: z.strictObject({ parcel: parcelId }),
  run,
});
