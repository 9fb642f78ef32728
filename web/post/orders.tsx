import { useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import { queryOf } from '../api/client.ts';
import { type NameCell, nameText } from '../api/studio.ts';
import { useReport } from '../api/use-report.ts';
import { Page } from '../app/page.tsx';
import { Shown } from '../parts/asked.tsx';
import { SelectField, TextField } from '../parts/field.tsx';
import { nearDayText } from '../words/numbers.ts';
import { orderList as words } from '../words/orders.ts';
import { post } from '../words/post.ts';

interface Row {
  readonly key: string;
  readonly order: string;
  readonly buyer: NameCell;
  readonly countryName: string;
  readonly placed: string;
  readonly state: string;
  readonly behind: string;
}

const FIELDS = ['search', 'state', 'from', 'to'] as const;

/** All orders, the latest first; found by number, words or days. */
export default function Orders() {
  const { query, route } = useLocation();
  const [draft, setDraft] = useState<Readonly<Record<string, string>>>(
    Object.fromEntries(FIELDS.map((field) => [field, query[field] ?? ''])),
  );
  const asked = useReport<Row, { readonly next: number | null }>('shop-orders/orders', {
    ...Object.fromEntries(FIELDS.map((field) => [field, query[field]])),
    after: query.after,
  });
  const set = (field: string) => (value: string) => setDraft({ ...draft, [field]: value });
  const go = (more: Readonly<Record<string, string>> = {}) => {
    const found = queryOf({ ...draft, ...more });
    route(found ? `/post/orders?${found}` : '/post/orders');
  };
  return (
    <Page title={words.title} back={{ href: '/post', to: post.title }}>
      <form
        class="no-paper"
        onSubmit={(event) => {
          event.preventDefault();
          go();
        }}
      >
        <TextField
          label={words.search}
          type="search"
          value={draft.search ?? ''}
          onValue={set('search')}
          input={{ autocomplete: 'off', maxLength: 100 }}
        />
        <div class="side-by-side">
          <SelectField
            label={words.state}
            value={draft.state ?? ''}
            onValue={set('state')}
            none={words.any}
            options={Object.entries(words.states).map(([value, label]) => ({ value, label }))}
          />
          <TextField label={words.from} type="date" value={draft.from ?? ''} onValue={set('from')} />
          <TextField label={words.to} type="date" value={draft.to ?? ''} onValue={set('to')} />
          <p class="buttons">
            <button type="submit">{words.find}</button>
          </p>
        </div>
      </form>
      <Shown of={asked}>
        {({ rows, more }) => (
          <>
            {rows.length === 0 && <p>{words.none}</p>}
            <ol class="ledger">
              {rows.map((row) => (
                <li key={row.key} class="whole">
                  <div class="in-margin small">{nearDayText(row.placed)}</div>
                  <div class="line">
                    <p class="first-line">
                      <a class="reach" href={row.behind}>
                        <strong>{row.order}</strong>
                      </a>
                      <span>{row.countryName}</span>
                    </p>
                    <p class="small soft" dir="auto">
                      {[nameText(row.buyer), words.states[row.state] ?? row.state].filter(Boolean).join(', ')}
                    </p>
                  </div>
                </li>
              ))}
            </ol>
            <p class="buttons">
              {query.after && (
                <button type="button" onClick={() => go()}>
                  {words.newest}
                </button>
              )}
              {more.next !== null && (
                <button type="button" onClick={() => go({ after: String(more.next) })}>
                  {words.older}
                </button>
              )}
            </p>
          </>
        )}
      </Shown>
    </Page>
  );
}
