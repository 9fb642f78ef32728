import './post.css';
import { useRef, useState } from 'preact/hooks';
import type { Problem } from '../api/client.ts';
import { record } from '../api/orders.ts';
import { nameText } from '../api/studio.ts';
import { useReport } from '../api/use-report.ts';
import { Page } from '../app/page.tsx';
import { Shown } from '../parts/asked.tsx';
import { SelectField, TextField } from '../parts/field.tsx';
import { PaperLink } from '../parts/paper-link.tsx';
import { ProblemSaid } from '../parts/problem.tsx';
import { moneyText } from '../words/numbers.ts';
import { parcel as words } from '../words/parcels.ts';
import { post } from '../words/post.ts';
import type { PackedRow } from './types.ts';

/** Number after number, typed or scanned; Enter records one and goes on to the next. */
export default function Posting() {
  const asked = useReport<PackedRow>('shop-orders/packed');
  return (
    <Page title={words.postingTitle} back={{ href: '/post', to: post.title }}>
      <Shown of={asked}>
        {({ rows }) =>
          rows.length === 0 ? (
            <p>{words.postingEmpty}</p>
          ) : (
            <>
              <p class="lead">{words.postingLead}</p>
              <p class="papers">
                <PaperLink
                  paper="shop-orders/address-labels"
                  params={{ parcels: rows.map(({ parcel }) => parcel).join(',') }}
                  title={words.labels}
                />
                <a class="button plain no-paper" href="/post/labels">
                  {words.labelSheets}
                </a>
              </p>
              <ol class="ledger plain-ledger posting">
                {rows.map((row) => (
                  <li key={row.parcel}>
                    <div class="line">
                      <One row={row} />
                    </div>
                  </li>
                ))}
              </ol>
            </>
          )
        }
      </Shown>
    </Page>
  );
}

function One({ row }: { readonly row: PackedRow }) {
  const [number, setNumber] = useState('');
  const [service, setService] = useState(row.offers[0]?.service ?? '');
  const [problem, setProblem] = useState<Problem>();
  const form = useRef<HTMLFormElement>(null);
  const offer = row.offers.find((one) => one.service === service);
  const submit = async (event: Event) => {
    event.preventDefault();
    const next = form.current?.closest('li')?.nextElementSibling?.querySelector<HTMLInputElement>('input');
    const input = {
      parcel: row.parcel,
      ...(number.trim() ? { number: number.trim() } : {}),
      ...(offer ? { service: offer.name, cost: offer.price } : {}),
    };
    const sent = await record([{ command: 'parcel.post', input }], words.postedFor(row.orders));
    setProblem(sent.problem);
    if (!sent.problem) next?.focus();
  };
  return (
    <form ref={form} onSubmit={submit}>
      <p class="first-line">
        <a href={row.behind}>
          <strong>{nameText(row.buyer) ?? row.orders}</strong>
        </a>
        <span class="soft">
          {post.order(row.orders)}, {row.countryName}
        </span>
      </p>
      <div class="side-by-side">
        <TextField
          label={words.number}
          value={number}
          onValue={setNumber}
          wrong={problem?.field === 'number' ? problem.sentence : undefined}
          input={{ autocomplete: 'off', autocapitalize: 'characters', spellcheck: false, maxLength: 60 }}
        />
        {row.offers.length > 0 && (
          <SelectField
            label={words.service}
            value={service}
            onValue={setService}
            none={words.serviceNone}
            options={row.offers.map((one) => ({
              value: one.service,
              label: `${one.name}, ${moneyText(one.price.amount, one.price.currency)}`,
            }))}
          />
        )}
        <p class="buttons">
          <button type="submit">{words.postSubmit}</button>
        </p>
      </div>
      {problem && problem.field !== 'number' && <ProblemSaid problem={problem} />}
    </form>
  );
}
