import { Fragment } from 'preact';
import { useState } from 'preact/hooks';
import type { Problem } from '../api/client.ts';
import { newId } from '../api/ids.ts';
import { record } from '../api/orders.ts';
import { ProblemSaid } from '../parts/problem.tsx';
import { countText, nearDayText } from '../words/numbers.ts';
import { post as words } from '../words/post.ts';
import { orderAddress, type TodayMore, type TodayRow } from './types.ts';

interface Waiting {
  readonly key: string;
  readonly number: string;
  readonly promise: string;
  readonly country: string;
  readonly buyer: string;
  readonly late: boolean;
  readonly lines: readonly TodayRow[];
}

/** Lines by order, in the order in which they were promised. */
export function ordersOf(rows: readonly TodayRow[]): Waiting[] {
  const by = new Map<string, TodayRow[]>();
  for (const row of rows) by.set(row.key, [...(by.get(row.key) ?? []), row]);
  return [...by].map(([key, lines]) => {
    const { order: number, promise, country, buyer, late } = lines[0]!;
    return { key, number, promise, country, buyer, late, lines };
  });
}

/** Whether all of it can be packed now; a file needs no parcel. */
const ready = ({ lines }: Waiting): boolean =>
  lines.every(({ state }) => state === 'pack') && lines.some(({ why }) => !why.startsWith('a file'));

/** Keys that go into one parcel: of one buyer and country when together, else one order each. */
export function parcelsOf(chosen: readonly Waiting[], together: boolean): string[][] {
  if (!together) return chosen.map(({ key }) => [key]);
  const by = new Map<string, string[]>();
  for (const { key, buyer, country } of chosen) {
    const whose = `${buyer} ${country}`;
    by.set(whose, [...(by.get(whose) ?? []), key]);
  }
  return [...by.values()];
}

/** Ticks what goes today and packs it, a parcel for each buyer. */
export function ToPack({ rows, more }: { readonly rows: readonly TodayRow[]; readonly more: TodayMore }) {
  const waiting = ordersOf(rows);
  const [left, setLeft] = useState<ReadonlySet<string>>(new Set());
  const [together, setTogether] = useState(true);
  const [problem, setProblem] = useState<Problem>();
  const [some, setSome] = useState<string>();
  const [busy, setBusy] = useState(false);
  const chosen = waiting.filter((one) => ready(one) && !left.has(one.key));

  const pack = async (event: Event) => {
    event.preventDefault();
    setBusy(true);
    const parcels = parcelsOf(chosen, together);
    let done = 0;
    const wishes = parcels.map((orders) => ({ command: 'parcel.pack', input: { parcel: newId(), orders } }));
    const sent = await record(wishes, words.packedDone(wishes.length));
    if (!sent.problem) done = wishes.length;
    setProblem(sent.problem);
    setSome(sent.problem && sent.recorded ? words.some(done, wishes.length) : undefined);
    setBusy(false);
  };
  const toggle = (key: string) => {
    const next = new Set(left);
    if (!next.delete(key)) next.add(key);
    setLeft(next);
  };

  if (waiting.length === 0) return <p>{words.nothing}</p>;
  return (
    <form class="part" onSubmit={pack}>
      <h2>{words.toPack}</h2>
      <ol class="ledger pack-list">
        {waiting.map((one) => (
          <Line
            key={one.key}
            one={one}
            on={ready(one) ? !left.has(one.key) : undefined}
            toggle={() => toggle(one.key)}
          />
        ))}
      </ol>
      {more.buyers.length > 0 && (
        <label class="tick no-paper">
          <input
            type="checkbox"
            checked={together}
            onChange={(event) => setTogether(event.currentTarget.checked)}
          />
          {words.together}
        </label>
      )}
      {problem && <ProblemSaid problem={problem} part={!!some} />}
      {chosen.length > 0 && (
        <p class="buttons">
          <button type="submit" class="main" disabled={busy}>
            {words.packThese(chosen.length)}
          </button>
        </p>
      )}
      <Batches more={more} />
    </form>
  );
}

interface LineProps {
  readonly one: Waiting;
  /** Ticked or not; undefined where it cannot be packed now. */
  readonly on: boolean | undefined;
  readonly toggle: () => void;
}

const Line = ({ one, on, toggle }: LineProps) => (
  <li class={one.late ? 'needs' : undefined}>
    <div class="in-margin">
      {on === undefined ? (
        <span class="small">{one.country}</span>
      ) : (
        <label class="tick">
          <input type="checkbox" checked={on} onChange={toggle} aria-label={words.choose(one.number)} />
          <span class="small">{one.country}</span>
        </label>
      )}
    </div>
    <div class="line">
      <p class="first-line">
        <a href={orderAddress(one.key)}>
          <strong>{words.order(one.number)}</strong>
        </a>
        <span class={one.late ? undefined : 'soft'}>
          {one.late ? words.late(nearDayText(one.promise)) : words.promised(nearDayText(one.promise))}
        </span>
      </p>
      {one.lines.map((line) => (
        <p key={line.line} class="small">
          {words.line(line.quantity, line.item)}
          {line.why && <span class={line.state === 'pack' ? 'soft' : undefined}> — {line.why}</span>}
        </p>
      ))}
    </div>
  </li>
);

const Batches = ({ more }: { readonly more: TodayMore }) => (
  <div class="side-by-side">
    {more.batches.length > 0 && (
      <section>
        <h3>{words.batches}</h3>
        <dl class="facts">
          {more.batches.map(({ item, name, quantity }) => (
            <Fragment key={item}>
              <dt>{name}</dt>
              <dd>{countText(quantity)}</dd>
            </Fragment>
          ))}
        </dl>
      </section>
    )}
    {more.make.length > 0 && (
      <section>
        <h3>{words.make}</h3>
        <ul>
          {more.make.map(({ item, name, missing }) => (
            <li key={item}>
              <a href={`/post/items/${encodeURIComponent(item)}`}>{words.makeLine(missing, name)}</a>
            </li>
          ))}
        </ul>
      </section>
    )}
  </div>
);
