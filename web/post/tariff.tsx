import './tariff.css';
import { useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import { handleOf } from '../../server/contract/studio/values.ts';
import { useReport } from '../api/use-report.ts';
import { announce } from '../app/announce.ts';
import { Page } from '../app/page.tsx';
import { Shown } from '../parts/asked.tsx';
import { NoteField, TextField } from '../parts/field.tsx';
import { habits, today } from '../words/numbers.ts';
import { shop } from '../words/shop.ts';
import { tariff as words } from '../words/tariff.ts';
import { RecordForm } from './record-form.tsx';
import {
  blankRow,
  COLUMNS,
  isBlank,
  pasted,
  type Row,
  rowAfter,
  rowsOf,
  tariffOf,
  type Wrong,
  wrongRows,
} from './tariff-rows.ts';
import type { ShopMore, Tariff } from './types.ts';

/** A table of prices, new or anew from one that is there (`?of=…&from=…`). */
export default function TariffPage() {
  const { query } = useLocation();
  const asked = useReport<never, ShopMore>('shop-orders/shop');
  return (
    <Page title={words.title} back={{ href: '/post/shop', to: shop.title }}>
      <p class="lead prose">{words.lead}</p>
      <Shown of={asked}>
        {({ more }) => (
          <Editor
            before={more.tariffs.flat().find((one) => one.tariff === query.of && one.from === query.from)}
          />
        )}
      </Shown>
    </Page>
  );
}

function Editor({ before }: { readonly before: Tariff | undefined }) {
  const [name, setName] = useState(before?.name ?? '');
  const [from, setFrom] = useState(today());
  const [currency, setCurrency] = useState(
    before?.services[0]?.steps[0]?.price.currency ?? habits.value.currency,
  );
  const [rows, setRows] = useState<readonly Row[]>(() => (before ? rowsOf(before) : [blankRow]));
  const known = /^[A-Z]{3}$/.test(currency) ? currency : habits.value.currency;
  const wrong = wrongRows(rows, known);
  const bad = wrong.filter((one) => one.length > 0).length;
  const set = (at: number, change: Partial<Row>) =>
    setRows(rows.map((row, n) => (n === at ? { ...row, ...change } : row)));
  const wish = () => {
    if (!handleOf(name)) return { missing: words.missingName };
    if (rows.every(isBlank)) return { missing: words.missingRows };
    if (bad > 0) return { missing: words.wrong(bad) };
    const input = { tariff: before?.tariff ?? handleOf(name), name: name.trim(), from };
    return {
      wishes: [{ command: 'tariff.write', input: { ...input, ...tariffOf(rows, known) } }],
      sentence: words.done,
    };
  };
  return (
    <>
      <RecordForm now submit={words.submit} wish={wish} then="/post/shop">
        <div class="side-by-side">
          <TextField label={words.name} value={name} onValue={setName} input={{ maxLength: 120 }} />
          <TextField label={words.from} hint={words.fromHint} type="date" value={from} onValue={setFrom} />
          <TextField
            label={words.currency}
            value={currency}
            onValue={(value) => setCurrency(value.toUpperCase())}
            input={{ maxLength: 3, autocomplete: 'off' }}
          />
        </div>
        <p class="hint">{words.explain}</p>
        <ol class="tariff-rows">
          {rows.map((row, at) => (
            <li key={at}>
              <Fields row={row} at={at} wrong={wrong[at]!} onChange={(change) => set(at, change)} />
              <button
                type="button"
                class="plain"
                aria-label={words.remove(at + 1)}
                onClick={() => setRows(rows.length > 1 ? rows.filter((_, n) => n !== at) : [blankRow])}
              >
                {words.away}
              </button>
              {wrong[at]!.length > 0 && (
                <p class="wrong" id={`tariff-wrong-${at}`}>
                  {words.row(at + 1)}: {wrong[at]!.map(({ sentence }) => sentence).join(' ')}
                </p>
              )}
            </li>
          ))}
        </ol>
        <p class="buttons">
          <button type="button" onClick={() => setRows([...rows, rowAfter(rows.at(-1))])}>
            {words.add}
          </button>
          <span class="small soft">{words.addHint}</span>
        </p>
        <p role="status">{bad > 0 ? words.wrong(bad) : ''}</p>
      </RecordForm>
      <Paste onRows={(more) => setRows([...rows.filter((row) => !isBlank(row)), ...more])} />
    </>
  );
}

interface FieldsProps {
  readonly row: Row;
  readonly at: number;
  readonly wrong: readonly Wrong[];
  readonly onChange: (change: Partial<Row>) => void;
}

const Fields = ({ row, at, wrong, onChange }: FieldsProps) => (
  <>
    {COLUMNS.map((column) => (
      <div key={column} class={`tariff-${column}`}>
        <span aria-hidden="true">{words.columns[column]}</span>
        {column === 'tracked' ? (
          <input
            type="checkbox"
            checked={row.tracked}
            aria-label={words.field(at + 1, words.columns[column]!)}
            onChange={(event) => onChange({ tracked: event.currentTarget.checked })}
          />
        ) : (
          <input
            type="text"
            value={row[column]}
            aria-label={words.field(at + 1, words.columns[column]!)}
            aria-invalid={wrong.some((one) => one.column === column) ? 'true' : undefined}
            aria-describedby={wrong.length > 0 ? `tariff-wrong-${at}` : undefined}
            autocomplete="off"
            inputMode={
              column === 'upTo' || column === 'price' || column === 'compensation' ? 'decimal' : 'text'
            }
            onInput={(event) => onChange({ [column]: event.currentTarget.value })}
          />
        )}
      </div>
    ))}
  </>
);

function Paste({ onRows }: { readonly onRows: (rows: readonly Row[]) => void }) {
  const [text, setText] = useState('');
  const [none, setNone] = useState(false);
  const add = (event: Event) => {
    event.preventDefault();
    const rows = pasted(text);
    setNone(rows.length === 0);
    if (rows.length === 0) return;
    onRows(rows);
    setText('');
    announce(words.pasteDone(rows.length));
  };
  return (
    <details class="no-paper">
      <summary>{words.paste}</summary>
      <form onSubmit={add}>
        <NoteField
          label={words.paste}
          hint={`${words.pasteHint} ${Object.values(words.columns).join(' · ')}`}
          wrong={none ? words.pasteNone : undefined}
          value={text}
          onValue={setText}
        />
        <p class="buttons">
          <button type="submit">{words.pasteSubmit}</button>
        </p>
      </form>
    </details>
  );
}
