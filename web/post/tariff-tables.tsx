import { queryOf } from '../api/client.ts';
import { dayText, today } from '../words/numbers.ts';
import { shop } from '../words/shop.ts';
import { tariff as words } from '../words/tariff.ts';
import { priced } from './order-facts.tsx';
import type { Tariff } from './types.ts';

/** All that was ever written down under one name, the latest first, with the days between which each holds. */
export function Tables({ versions }: { readonly versions: readonly Tariff[] }) {
  const sorted = [...versions].sort((a, b) => (a.from < b.from ? 1 : -1));
  const now = sorted.find(({ from }) => from <= today());
  return (
    <>
      <h3>{sorted[0]!.name}</h3>
      {sorted.map((one, at) => (
        <details key={one.from} open={one === now}>
          <summary>
            {one === now ? words.now : one.from > today() ? words.later : words.before},{' '}
            {at === 0
              ? words.since(dayText(one.from))
              : words.until(dayText(one.from), dayText(sorted[at - 1]!.from))}
          </summary>
          <Prices tariff={one} />
          <p class="no-paper">
            <a class="reach-line" href={`/post/tariff?${queryOf({ of: one.tariff, from: one.from })}`}>
              {words.anew}
            </a>
          </p>
        </details>
      ))}
    </>
  );
}

const Prices = ({ tariff }: { readonly tariff: Tariff }) => (
  <div class="wide">
    <table>
      <thead>
        <tr>
          <th scope="col">{words.columns.zone}</th>
          <th scope="col">{words.columns.service}</th>
          <th scope="col">{words.columns.formats}</th>
          <th scope="col">{words.columns.tracked}</th>
          <th scope="col">{words.columns.compensation}</th>
          <th scope="col">{words.columns.price}</th>
        </tr>
      </thead>
      <tbody>
        {tariff.services.map((service) => (
          <tr key={service.id}>
            <td>{tariff.zones.find((zone) => zone.id === service.zone)?.name}</td>
            <th scope="row">{service.name}</th>
            <td>{service.formats.join(' ')}</td>
            <td>{service.tracked ? words.yes : ''}</td>
            <td>{service.compensation ? priced(service.compensation) : ''}</td>
            <td>
              {service.steps.map((step) => (
                <div key={step.upTo}>
                  {shop.upTo(step.upTo)}: {priced(step.price)}
                </div>
              ))}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  </div>
);
