import './post.css';
import { useReport } from '../api/use-report.ts';
import { Page } from '../app/page.tsx';
import { Shown } from '../parts/asked.tsx';
import { Empty } from '../parts/empty.tsx';
import { item as words } from '../words/items.ts';
import { countText, moneyText } from '../words/numbers.ts';
import { post } from '../words/post.ts';
import { ItemForm } from './item-form.tsx';
import type { ItemRow } from './types.ts';

const counted = ({ kind }: ItemRow): boolean => kind !== 'pot' && kind !== 'download';

/** What is sold by post, and how many there are of it. */
export default function Items() {
  const asked = useReport<ItemRow>('shop-orders/items');
  return (
    <Page title={words.title} back={{ href: '/post', to: post.title }}>
      <Shown of={asked}>
        {({ rows }) =>
          rows.length === 0 ? (
            <Empty what={words.empty} />
          ) : (
            <ul class="ledger plain-ledger">
              {rows.map((row) => (
                <li key={row.item} class="whole">
                  <div class="line">
                    <p class="first-line">
                      <a class="reach" href={row.behind}>
                        <strong>{row.name}</strong>
                      </a>
                      <span>{stock(row)}</span>
                    </p>
                    <p class="small soft">
                      {[
                        words.kinds[row.kind],
                        row.price !== null && row.currency && moneyText(row.price, row.currency),
                        row.promised > 0 && `${words.promised}: ${countText(row.promised)}`,
                      ]
                        .filter(Boolean)
                        .join(', ')}
                    </p>
                  </div>
                </li>
              ))}
            </ul>
          )
        }
      </Shown>
      <section class="part no-paper">
        <h2>{words.add}</h2>
        <ItemForm />
      </section>
    </Page>
  );
}

function stock(row: ItemRow): string {
  if (!counted(row)) return '';
  return row.stock === null ? words.notCounted : countText(row.stock);
}
