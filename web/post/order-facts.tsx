import { Fragment } from 'preact';
import { nameText, noteText } from '../api/studio.ts';
import { dayText, listText, moneyText } from '../words/numbers.ts';
import { order as words } from '../words/orders.ts';
import { post } from '../words/post.ts';
import { HandOut } from './hand-out.tsx';
import type { Money, Order, OrderLine } from './types.ts';

export const priced = ({ amount, currency }: Money): string => moneyText(amount, currency);

/** What was ordered, and how far each line has come. */
export const OrderLines = ({ order }: { readonly order: Order }) => (
  <section class="part">
    <h2>{words.lines}</h2>
    <ul class="ledger plain-ledger">
      {order.lines.map((line) => (
        <li key={line.line}>
          <div class="line">
            <p class="first-line">
              <a href={`/post/items/${encodeURIComponent(line.item)}`}>
                {post.line(line.quantity, line.name)}
              </a>
              <span>{line.price ? priced(line.price) : ''}</span>
            </p>
            <p class="small soft">{standing(line)}</p>
            {line.download && !line.cancelled && <HandOut order={order} line={line} />}
          </div>
        </li>
      ))}
    </ul>
  </section>
);

function standing(line: OrderLine): string {
  if (line.cancelled) return words.cancelled;
  if (line.download) return words.isFile;
  if (line.open === 0) return words.allGone;
  const stock = line.kind === 'pot' ? '' : line.stock === null ? words.uncounted : words.stock(line.stock);
  return [words.open(line.open), stock].filter(Boolean).join(', ');
}

/** To whom, by when, and for what money. */
export function OrderFacts({ order }: { readonly order: Order }) {
  const who = noteText(order.name) ?? nameText(order.buyer);
  const address = [noteText(order.address), noteText(order.postcode), order.countryName]
    .filter(Boolean)
    .join('\n');
  const wants = [
    order.wants.tracked ? words.tracked : '',
    order.wants.compensation ? words.compensation(priced(order.wants.compensation)) : '',
  ].filter(Boolean);
  const rows: readonly (readonly [string, string | null | undefined])[] = [
    [words.buyer, who],
    [words.address, noteText(order.address) ? address : `${words.noAddress}, ${order.countryName}`],
    [words.email, noteText(order.email)],
    [words.placed, dayText(order.placed)],
    [words.promise, dayText(order.promise)],
    [words.posted, order.posted && dayText(order.posted)],
    [words.wants, wants.length > 0 ? listText(wants) : null],
    [words.postage, order.postage && priced(order.postage)],
    [words.total, order.sums.map(priced).join(' + ')],
    [words.refunds, order.refunds.map(priced).join(' + ')],
    [words.note, noteText(order.note)],
  ];
  return (
    <section class="part">
      <h2>{words.buyer}</h2>
      <dl class="facts">
        {rows
          .filter(([, value]) => value)
          .map(([name, value]) => (
            <Fragment key={name}>
              <dt>{name}</dt>
              <dd class="address" dir="auto">
                {value}
              </dd>
            </Fragment>
          ))}
      </dl>
    </section>
  );
}
