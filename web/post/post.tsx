import './post.css';
import { nameText } from '../api/studio.ts';
import { useReport } from '../api/use-report.ts';
import { Page } from '../app/page.tsx';
import { Shown } from '../parts/asked.tsx';
import { Empty } from '../parts/empty.tsx';
import { handouts } from '../words/handouts.ts';
import { nearDayText } from '../words/numbers.ts';
import { post as words } from '../words/post.ts';
import { labels } from '../words/shop.ts';
import { ToPack } from './to-pack.tsx';
import {
  orderAddress,
  type PackedRow,
  parcelAddress,
  type TodayMore,
  type TodayRow,
  type TransitRow,
} from './types.ts';

const ELSEWHERE = [
  ['/post/items', words.items, words.itemsAbout],
  ['/post/orders', words.orders, words.ordersAbout],
  ['/post/import', words.import, words.importAbout],
  ['/post/shop', words.shop, words.shopAbout],
  ['/post/labels', labels.title, labels.about],
  ['/post/links', handouts.title, handouts.about],
  ['/settings/by-itself', words.fetching, words.fetchingAbout],
  ['/review/shop-orders/reorder', words.reorder, words.reorderAbout],
  ['/review/shop-orders/fulfilment', words.fulfilment, words.fulfilmentAbout],
] as const;

/** What is to be packed, posted, and asked after. */
export default function Post() {
  const today = useReport<TodayRow, TodayMore>('shop-orders/today');
  const packed = useReport<PackedRow>('shop-orders/packed');
  const transit = useReport<TransitRow>('shop-orders/in-the-post');
  const empty =
    today.answer?.rows.length === 0 && packed.answer?.rows.length === 0 && transit.answer?.rows.length === 0;
  return (
    <Page
      title={words.title}
      aside={
        <a class="button main" href="/post/new">
          {words.newOrder}
        </a>
      }
    >
      {empty && (
        <Empty what={words.empty}>
          <a href="/post/new">{words.newOrder}</a>.
        </Empty>
      )}
      {!empty && <Shown of={today}>{({ rows, more }) => <ToPack rows={rows} more={more} />}</Shown>}
      <Shown of={packed}>{({ rows, sentence }) => <Packed rows={rows} sentence={sentence} />}</Shown>
      <Shown of={transit}>{({ rows }) => <InThePost rows={rows} />}</Shown>
      <section class="part">
        <h2>{words.elsewhere}</h2>
        <ul class="ledger plain-ledger">
          {ELSEWHERE.map(([href, name, about]) => (
            <li key={href} class="whole">
              <div class="line">
                <p>
                  <a class="reach" href={href}>
                    <strong>{name}</strong>
                  </a>
                </p>
                <p class="small soft">{about}</p>
              </div>
            </li>
          ))}
        </ul>
      </section>
    </Page>
  );
}

function Packed({ rows, sentence }: { readonly rows: readonly PackedRow[]; readonly sentence: string }) {
  if (rows.length === 0) return null;
  return (
    <section class="part">
      <h2>{words.packed}</h2>
      <p class="lead">{sentence}</p>
      <p class="buttons">
        <a class="button main" href="/post/posting">
          {words.postThem}
        </a>
      </p>
      <ol class="ledger">
        {rows.map((row) => (
          <li key={row.parcel} class="whole needs">
            <div class="in-margin small">{nearDayText(row.promise)}</div>
            <div class="line">
              <p class="first-line">
                <a class="reach" href={row.behind}>
                  <strong>{nameText(row.buyer) ?? row.orders}</strong>
                </a>
                <span>{row.countryName}</span>
              </p>
              <p class="small soft">{words.order(row.orders)}</p>
            </div>
          </li>
        ))}
      </ol>
    </section>
  );
}

const calm = ({ advice }: TransitRow): boolean => advice !== 'ask' && advice !== 'send again';

function InThePost({ rows }: { readonly rows: readonly TransitRow[] }) {
  if (rows.length === 0) return null;
  const late = rows.filter((row) => !calm(row));
  const rest = rows.length - late.length;
  return (
    <section class="part">
      <h2>{words.inThePost}</h2>
      {late.length > 0 && (
        <ol class="ledger">
          {late.map((row) => (
            <li key={`${row.key} ${row.parcel}`} class="needs">
              <div class="in-margin small">{nearDayText(row.posted)}</div>
              <div class="line">
                <p class="first-line">
                  <a href={orderAddress(row.key)}>
                    <strong>{words.order(row.order)}</strong>
                  </a>
                  <span>
                    {row.country}, {words.days(row.days)}
                  </span>
                </p>
                <p class="small">
                  <a href={parcelAddress(row.parcel)}>{row.number ?? words.inThePost}</a>{' '}
                  {words.advice[row.advice] ?? row.advice}
                </p>
              </div>
            </li>
          ))}
        </ol>
      )}
      {rest > 0 && (
        <p>
          {words.onTheWay(rest)} <a href="/review/shop-orders/in-the-post">{words.allOnTheWay}</a>.
        </p>
      )}
    </section>
  );
}
