import './post.css';
import { Fragment } from 'preact';
import { nameText, noteText } from '../api/studio.ts';
import { useReport } from '../api/use-report.ts';
import { Page } from '../app/page.tsx';
import { Shown } from '../parts/asked.tsx';
import { Empty } from '../parts/empty.tsx';
import { PaperLink } from '../parts/paper-link.tsx';
import { Story } from '../parts/story.tsx';
import { dayFrom, dayText, rateText } from '../words/numbers.ts';
import { parcel as words } from '../words/parcels.ts';
import { post } from '../words/post.ts';
import { priced } from './order-facts.tsx';
import { Ends, PostIt, SendAgain } from './parcel-next.tsx';
import { Do } from './record-form.tsx';
import { orderAddress, type ParcelMore, type Parcel as ParcelOf } from './types.ts';

/** A parcel's page: what can be done next, how it can go, what is in it, and all that happened. */
export default function Parcel({ params }: { readonly params: { readonly parcel: string } }) {
  const asked = useReport<never, ParcelMore>('shop-orders/parcel', { parcel: params.parcel });
  return (
    <Page title={words.title} back={{ href: '/post', to: post.title }}>
      <Shown of={asked}>
        {({ more, sentence }) =>
          more.parcel ? (
            <>
              <p class="lead">{sentence}</p>
              {more.late && <Late late={more.late} order={more.orders[0]!.order} parcel={params.parcel} />}
              <Next parcel={more.parcel} more={more} />
              <Papers parcel={more.parcel.parcel} />
              <Facts parcel={more.parcel} more={more} />
              {more.parcel.state === 'packed' && <Services more={more} />}
              <section class="part">
                <h2>{words.story}</h2>
                <Story lines={more.story} />
              </section>
            </>
          ) : (
            <Empty what={words.gone}>{words.goneWhy}</Empty>
          )
        }
      </Shown>
    </Page>
  );
}

/** Days for which a late parcel is left to come. */
const PATIENCE = 14;

type LateSaid = NonNullable<ParcelMore['late']>;

/** What is late is asked after first; what nobody answers is sent again, or left for a while. */
function Late({
  late,
  order,
  parcel,
}: {
  readonly late: LateSaid;
  readonly order: string;
  readonly parcel: string;
}) {
  const { days, lateBeyond, like, advice, asked, given } = late;
  return (
    <section class={advice === 'ask' || advice === 'send again' ? 'part needs' : 'part'}>
      <h2>{words.onItsWay}</h2>
      <p>
        {words.daysOnWay(days)}
        {lateBeyond !== null &&
          like &&
          ` ${words.beside(rateText(Math.floor(lateBeyond * 100) / 100), like)}`}
      </p>
      {asked && <p>{words.askedOn(dayText(asked))}</p>}
      {given && <p>{words.givenUntil(dayText(given))}</p>}
      <p>{words.lateAdvice[advice]}</p>
      {advice !== 'not known yet' && advice !== 'wait' && (
        <p class="buttons no-paper">
          <a class="button main" href={`${orderAddress(order)}?write=has-it-come`}>
            {asked ? words.askAgain : words.askNow}
          </a>
          <Do
            label={words.giveTime}
            wish={{ command: 'parcel.give-time', input: { parcel, until: dayFrom(PATIENCE) } }}
            sentence={words.giveTimeDone}
          />
        </p>
      )}
    </section>
  );
}

function Next({ parcel, more }: { readonly parcel: ParcelOf; readonly more: ParcelMore }) {
  if (parcel.state === 'packed')
    return (
      <section class="part no-paper">
        <h2>{words.post}</h2>
        <PostIt parcel={parcel.parcel} offers={more.offers?.fit ?? []} />
      </section>
    );
  if (parcel.state === 'lost' || parcel.state === 'came-back')
    return <SendAgain parcel={parcel.parcel} orders={more.orders} />;
  return parcel.state === 'posted' || parcel.state === 'assumed' ? <Ends parcel={parcel.parcel} /> : null;
}

const Papers = ({ parcel }: { readonly parcel: string }) => (
  <section class="part no-paper">
    <h2>{words.papers}</h2>
    <p class="papers">
      <PaperLink paper="shop-orders/packing-slip" params={{ parcel }} title={words.slip} />
      <PaperLink paper="shop-orders/address-labels" params={{ parcels: parcel }} title={words.label} />
      <PaperLink paper="shop-orders/customs" params={{ parcel }} title={words.customs} />
      <PaperLink paper="shop-orders/customs" params={{ parcel, paper: 'label' }} title={words.customsLabel} />
    </p>
  </section>
);

function Facts({ parcel, more }: { readonly parcel: ParcelOf; readonly more: ParcelMore }) {
  const [first] = more.orders;
  const name = first && (noteText(first.name) ?? nameText(first.buyer));
  const address = [
    name,
    noteText(first?.address ?? null),
    noteText(first?.postcode ?? null),
    parcel.countryName,
  ];
  const { size } = parcel;
  const rows: readonly (readonly [string, string | null | undefined])[] = [
    [words.contents, parcel.contents.map((it) => post.line(it.quantity, it.name)).join('\n')],
    [words.to, address.filter(Boolean).join('\n')],
    [words.postedOn, parcel.postedOn && dayText(parcel.postedOn)],
    [words.service, parcel.service],
    [words.number, parcel.number],
    [words.cost, parcel.cost && priced(parcel.cost)],
    [words.weight, parcel.weight === undefined ? words.unknown : words.grams(parcel.weight)],
    [words.size, size ? words.mm(size.length, size.width, size.thickness) : words.unknown],
    [words.format, words.formats[parcel.format ?? 'none']],
    [words.packaging, parcel.packagingName],
  ];
  return (
    <section class="part">
      <h2>{words.contents}</h2>
      <p>
        {words.orders}{' '}
        {more.orders.map((one) => (
          <a key={one.order} href={orderAddress(one.order)}>
            {post.order(one.number)}{' '}
          </a>
        ))}
      </p>
      <dl class="facts">
        {rows
          .filter(([, value]) => value)
          .map(([label, value]) => (
            <Fragment key={label}>
              <dt>{label}</dt>
              <dd class="address" dir="auto">
                {value}
              </dd>
            </Fragment>
          ))}
      </dl>
    </section>
  );
}

function Services({ more }: { readonly more: ParcelMore }) {
  const { offers } = more;
  if (!offers) return <p>{words.noWeight}</p>;
  const none = offers.fit.length === 0;
  return (
    <section class="part">
      <h2>{words.services}</h2>
      {none && (
        <p>
          {offers.out.length > 0 ? words.noServices : words.noTariff}{' '}
          <a href="/post/shop">{words.noTariffDo}</a>.
        </p>
      )}
      <ol>
        {offers.fit.map((offer, at) => (
          <li key={offer.service}>
            {offer.name}, {priced(offer.price)}
            {at === 0 && <strong> {words.cheapest}</strong>}
          </li>
        ))}
      </ol>
      {offers.out.length > 0 && (
        <details>
          <summary>{words.servicesOut}</summary>
          <ul>
            {offers.out.map(({ name, why }) => (
              <li key={`${name} ${why}`}>
                {name}: {why}
              </li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}
