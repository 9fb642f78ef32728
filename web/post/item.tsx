import './post.css';
import { useState } from 'preact/hooks';
import { useReport } from '../api/use-report.ts';
import { Page } from '../app/page.tsx';
import { Shown } from '../parts/asked.tsx';
import { Choices } from '../parts/choices.tsx';
import { CountField } from '../parts/count-field.tsx';
import { Empty } from '../parts/empty.tsx';
import { NoteField } from '../parts/field.tsx';
import { Story } from '../parts/story.tsx';
import { item as words } from '../words/items.ts';
import { countText } from '../words/numbers.ts';
import { ItemForm } from './item-form.tsx';
import { type PaperRef, printRun } from './of-paper.ts';
import { PrintSize } from './print-size.tsx';
import { RecordForm } from './record-form.tsx';
import { Source } from './source.tsx';
import type { ItemMore } from './types.ts';

/** An item's page: how many there are, what came and went, and what is known of it. */
export default function Item({ params }: { readonly params: { readonly item: string } }) {
  const asked = useReport<never, ItemMore>('shop-orders/item', { item: params.item });
  const facts = asked.answer?.more.item?.facts;
  return (
    <Page title={facts?.name ?? params.item} back={{ href: '/post/items', to: words.title }}>
      <Shown of={asked}>
        {({ more: { item, story } }) =>
          item ? (
            <>
              {item.facts.kind === 'pot' || item.facts.kind === 'download' ? (
                <p class="lead">{words.kinds[item.facts.kind]}</p>
              ) : (
                <Stock item={item.item} stock={item.stock} paper={item.facts.paper} />
              )}
              {(item.facts.kind === 'download' || item.facts.kind === 'template') && (
                <Source item={item.item} facts={item.facts} called={item.called} />
              )}
              <section class="part no-paper">
                <details>
                  <summary>{words.change}</summary>
                  <ItemForm key={item.item} item={item.item} facts={item.facts} />
                </details>
              </section>
              <section class="part">
                <h2>{words.story}</h2>
                <Story lines={story} />
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

const MOVES = [
  ['stock.print', words.printed],
  ['stock.make', words.made],
  ['stock.break', words.broken],
] as const;

interface StockProps {
  readonly item: string;
  readonly stock: number | null;
  readonly paper?: PaperRef;
}

function Stock({ item, stock, paper }: StockProps) {
  const [move, setMove] = useState<string>('stock.print');
  const [count, setCount] = useState(1);
  const [counted, setCounted] = useState(stock ?? 0);
  const [why, setWhy] = useState('');
  const [size, setSize] = useState('A4');
  const said = why.trim() ? { why: why.trim() } : {};
  return (
    <>
      <p class="lead">
        {words.stock}: <strong>{stock === null ? words.notCounted : countText(stock)}</strong>
      </p>
      <section class="part no-paper">
        <h2>{words.moved}</h2>
        <RecordForm
          submit={words.movedSubmit}
          wish={() => ({
            wishes:
              move === 'stock.print'
                ? printRun(item, count, paper, size)
                : [{ command: move, input: { item, count } }],
            sentence: words.movedDone,
          })}
        >
          <Choices
            legend={words.moved}
            value={move}
            onValue={setMove}
            options={MOVES.map(([value, label]) => ({ value, label }))}
          />
          <CountField label={words.howMany} value={count} onValue={setCount} min={1} />
          {move === 'stock.print' && paper && <PrintSize paper={paper} size={size} onSize={setSize} />}
        </RecordForm>
        <details open={stock === null}>
          <summary>{words.count}</summary>
          <RecordForm
            submit={words.countSubmit}
            onDone={() => setWhy('')}
            wish={() => ({
              wishes: [{ command: 'stock.count', input: { item, counted, ...said } }],
              sentence: words.countDone,
            })}
          >
            <CountField label={words.counted} value={counted} onValue={setCounted} />
            {stock !== null && counted !== stock && (
              <NoteField label={words.why} hint={words.whyHint} value={why} onValue={setWhy} />
            )}
          </RecordForm>
        </details>
      </section>
    </>
  );
}
