import './post.css';
import { useLocation } from 'preact-iso';
import { useReport } from '../api/use-report.ts';
import { Page } from '../app/page.tsx';
import { Shown } from '../parts/asked.tsx';
import { Empty } from '../parts/empty.tsx';
import { Story } from '../parts/story.tsx';
import { nearDayText } from '../words/numbers.ts';
import { order as words } from '../words/orders.ts';
import { post } from '../words/post.ts';
import { BuyersPictures, KeepPicture } from './buyers-pictures.tsx';
import { CameToLook } from './came.tsx';
import { ChangeOrder, KeepNote, PayBack, StopOrder } from './order-changes.tsx';
import { OrderFacts, OrderLines } from './order-facts.tsx';
import { Pack } from './pack.tsx';
import type { OrderMore, Order as OrderOf } from './types.ts';
import { parcelAddress } from './types.ts';
import { Write } from './write.tsx';

/** An order's page is its story: what can be done next, what is in it, and all that happened. */
export default function Order({
  params,
}: {
  readonly params: { readonly shop: string; readonly number: string };
}) {
  const key = `${params.shop}/${params.number}`;
  const asked = useReport<never, OrderMore>('shop-orders/order', { order: key });
  const order = asked.answer?.more.order;
  return (
    <Page title={post.order(order?.number ?? params.number)} back={{ href: '/post', to: post.title }}>
      <Shown of={asked}>
        {({ more, sentence }) =>
          more.order ? (
            <>
              <p class="lead">{sentence}</p>
              {more.order.came && <CameToLook order={key} came={more.order.came} />}
              <Next order={more.order} others={more.others} />
              <OrderLines order={more.order} />
              <Parcels order={more.order} />
              <OrderFacts order={more.order} />
              <BuyersPictures order={more.order} />
              <More order={more.order} />
              <section class="part">
                <h2>{words.story}</h2>
                <Story lines={more.story} />
              </section>
            </>
          ) : (
            <Empty what={post.gone}>{post.goneWhy}</Empty>
          )
        }
      </Shown>
    </Page>
  );
}

function Next({ order, others }: { readonly order: OrderOf; readonly others: OrderMore['others'] }) {
  if (!order.lines.some((line) => line.open > 0)) return null;
  return (
    <section class="part no-paper">
      <h2>{words.pack}</h2>
      <Pack order={order} others={others} />
    </section>
  );
}

function Parcels({ order }: { readonly order: OrderOf }) {
  if (order.parcels.length === 0) return null;
  return (
    <section class="part">
      <h2>{words.parcels}</h2>
      <ol class="ledger">
        {order.parcels.map((parcel) => (
          <li key={parcel.parcel} class={parcel.state === 'packed' ? 'whole needs' : 'whole'}>
            <div class="in-margin small">{nearDayText(parcel.postedAt ?? parcel.packedAt)}</div>
            <div class="line">
              <p class="first-line">
                <a class="reach" href={parcelAddress(parcel.parcel)}>
                  <strong>{words.parcelStates[parcel.state] ?? parcel.state}</strong>
                </a>
                {parcel.again && <span>{words.again}</span>}
              </p>
              <p class="small soft">{[parcel.service, parcel.number].filter(Boolean).join(', ')}</p>
            </div>
          </li>
        ))}
      </ol>
    </section>
  );
}

function More({ order }: { readonly order: OrderOf }) {
  const { write } = useLocation().query;
  const open = order.lines.some((line) => line.open > 0 || (line.download && !line.cancelled));
  return (
    <section class="part no-paper">
      <details open={write !== undefined}>
        <summary>{words.write}</summary>
        <Write order={order} first={write} />
      </details>
      <details>
        <summary>{words.noteIt}</summary>
        <KeepNote order={order.order} />
      </details>
      <details>
        <summary>{words.picture}</summary>
        <KeepPicture order={order} />
      </details>
      {!order.cancelled && (
        <details>
          <summary>{words.change}</summary>
          <ChangeOrder order={order} />
        </details>
      )}
      {order.sums.length > 0 && (
        <details>
          <summary>{words.refund}</summary>
          <PayBack order={order} />
        </details>
      )}
      {open && (
        <details>
          <summary>{words.cancel}</summary>
          <StopOrder order={order.order} />
        </details>
      )}
    </section>
  );
}
