/** The cheapest service of the user's tariff tables that meets what is needed, and why the others fell out. */
import type { Money } from '../../../server/contract/studio/values.ts';
import type { Format, Wants } from '../values.ts';
import { countryName } from './countries.ts';
import type { Service, TariffFacts } from './tariff-facts.ts';

export interface Post {
  readonly country: string;
  /** g, packed. */
  readonly weight: number;
  /** None: as a parcel. */
  readonly format?: Format;
  readonly wants: Wants;
  /** On which it is posted. */
  readonly day: string;
}

export interface Offer {
  readonly tariff: string;
  readonly service: string;
  readonly name: string;
  readonly price: Money;
  readonly tracked: boolean;
}

export interface Offers {
  /** The cheapest first, in each currency; money of two currencies is not compared. */
  readonly fit: readonly Offer[];
  readonly out: readonly { readonly name: string; readonly why: string }[];
}

/** The table that holds on a day, of the versions of one tariff. */
export const holding = (versions: readonly TariffFacts[], day: string): TariffFacts | undefined =>
  versions.filter((one) => one.from <= day).sort((a, b) => (a.from < b.from ? 1 : -1))[0];

/** The zone that names the country; the rest of the world when none does. */
export const zoneOf = (tariff: TariffFacts, country: string) =>
  tariff.zones.find((zone) => zone.countries !== 'rest' && zone.countries.includes(country)) ??
  tariff.zones.find((zone) => zone.countries === 'rest');

const stepFor = (service: Service, weight: number) => service.steps.find((step) => weight <= step.upTo);

function whyNot(service: Service, post: Post): string | undefined {
  const as = post.format ?? 'parcel';
  if (!service.formats.includes(as))
    return `takes ${service.formats.join(', ')}, and this is ${post.format ? `format ${as}` : 'no letter but a parcel'}`;
  const last = service.steps.at(-1)!.upTo;
  if (!stepFor(service, post.weight)) return `takes up to ${last} g, and this weighs ${post.weight} g`;
  if (post.wants.tracked && !service.tracked) return 'is not tracked';
  const wanted = post.wants.compensation;
  if (!wanted || wanted.amount === 0) return undefined;
  const paid = service.compensation;
  if (!paid) return 'pays nothing for a loss';
  if (paid.currency !== wanted.currency)
    return `pays for a loss in ${paid.currency}, and ${wanted.currency} is asked for`;
  return paid.amount < wanted.amount ? 'pays too little for a loss' : undefined;
}

/** @param tariffs the versions of each tariff table */
export function offersFor(tariffs: readonly (readonly TariffFacts[])[], post: Post): Offers {
  const fit: Offer[] = [];
  const out: { name: string; why: string }[] = [];
  for (const versions of tariffs) {
    const tariff = holding(versions, post.day);
    if (!tariff) {
      if (versions.length > 0)
        out.push({ name: versions[0]!.name, why: `holds from ${versions[0]!.from} only` });
      continue;
    }
    const zone = zoneOf(tariff, post.country);
    if (!zone) {
      out.push({ name: tariff.name, why: `has no zone for ${countryName(post.country)}` });
      continue;
    }
    for (const service of tariff.services) {
      if (service.zone !== zone.id) continue;
      const why = whyNot(service, post);
      if (why !== undefined) out.push({ name: service.name, why });
      else
        fit.push({
          tariff: tariff.tariff,
          service: service.id,
          name: service.name,
          price: stepFor(service, post.weight)!.price,
          tracked: service.tracked,
        });
    }
  }
  fit.sort((a, b) => a.price.currency.localeCompare(b.price.currency) || a.price.amount - b.price.amount);
  return { fit, out };
}
