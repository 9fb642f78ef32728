import './post.css';
import { useState } from 'preact/hooks';
import { handleOf } from '../../server/contract/studio/values.ts';
import { noteText } from '../api/studio.ts';
import { useReport } from '../api/use-report.ts';
import { Page } from '../app/page.tsx';
import { Shown } from '../parts/asked.tsx';
import { NoteField, TextField } from '../parts/field.tsx';
import { dayText, habits, today } from '../words/numbers.ts';
import { post } from '../words/post.ts';
import { shop as words } from '../words/shop.ts';
import { priced } from './order-facts.tsx';
import { Packagings } from './packagings.tsx';
import { RecordForm } from './record-form.tsx';
import { readTariff } from './tariff-text.ts';
import type { ShopMore, Tariff } from './types.ts';

/** How the shop works: who sends, in what, and what the post costs. */
export default function Shop() {
  const asked = useReport<never, ShopMore>('shop-orders/shop');
  return (
    <Page title={words.title} back={{ href: '/post', to: post.title }}>
      <Shown of={asked}>
        {({ more }) => (
          <>
            <Sender facts={more.facts} />
            <section class="part">
              <h2>{words.packagings}</h2>
              <Packagings packagings={more.facts.packagings} />
            </section>
            <section class="part">
              <h2>{words.tariffs}</h2>
              <p class="prose">{words.tariffsLead}</p>
              {more.tariffs.flat().map((one) => (
                <Table key={`${one.tariff} ${one.from}`} tariff={one} />
              ))}
              <NewTable />
            </section>
          </>
        )}
      </Shown>
    </Page>
  );
}

function Sender({ facts }: { readonly facts: ShopMore['facts'] }) {
  const [sender, setSender] = useState(noteText(facts.sender ?? null) ?? '');
  const [origin, setOrigin] = useState(facts.origin ?? '');
  const [promiseDays, setPromiseDays] = useState(String(facts.promiseDays));
  const [assumeDays, setAssumeDays] = useState(String(facts.assumeDays ?? ''));
  const input = {
    promiseDays: Number(promiseDays),
    ...(Number(assumeDays) > 0 ? { assumeDays: Number(assumeDays) } : {}),
    ...(origin.trim() ? { origin: origin.trim().toUpperCase() } : {}),
    ...(sender.trim() ? { sender: sender.trim() } : {}),
  };
  const days = { min: 0, max: 730, inputMode: 'numeric' };
  return (
    <section class="part">
      <h2>{words.sender}</h2>
      <RecordForm
        now
        submit={words.save}
        wish={() => ({ wishes: [{ command: 'shop.set', input }], sentence: words.saved })}
      >
        <NoteField label={words.sender} hint={words.senderHint} value={sender} onValue={setSender} />
        <div class="side-by-side">
          <TextField label={words.origin} value={origin} onValue={setOrigin} input={{ maxLength: 2 }} />
          <TextField
            label={words.promiseDays}
            type="number"
            value={promiseDays}
            onValue={setPromiseDays}
            input={days}
          />
          <TextField
            label={words.assumeDays}
            type="number"
            value={assumeDays}
            onValue={setAssumeDays}
            optional
            input={days}
          />
        </div>
      </RecordForm>
    </section>
  );
}

const Table = ({ tariff }: { readonly tariff: Tariff }) => (
  <details>
    <summary>
      {tariff.name}, {words.holdsFrom(dayText(tariff.from))}
    </summary>
    <ul>
      {tariff.services.map((service) => (
        <li key={service.id}>
          {tariff.zones.find((zone) => zone.id === service.zone)?.name}: {service.name} (
          {service.formats.join(', ')}) —{' '}
          {service.steps.map((step) => `${words.upTo(step.upTo)} ${priced(step.price)}`).join('; ')}
        </li>
      ))}
    </ul>
  </details>
);

function NewTable() {
  const [name, setName] = useState('');
  const [from, setFrom] = useState(today());
  const [text, setText] = useState('');
  const wish = () => {
    const read = readTariff(text, habits.value.currency);
    if ('wrong' in read) return { missing: read.wrong };
    if (!handleOf(name)) return { missing: words.wants.service };
    const input = { tariff: handleOf(name), name: name.trim(), from, ...read };
    return { wishes: [{ command: 'tariff.write', input }], sentence: words.tableDone };
  };
  return (
    <details class="no-paper">
      <summary>{words.table}</summary>
      <RecordForm now submit={words.tableSubmit} wish={wish} onDone={() => setText('')}>
        <div class="side-by-side">
          <TextField label={words.tableName} value={name} onValue={setName} input={{ maxLength: 120 }} />
          <TextField label={words.tableFrom} type="date" value={from} onValue={setFrom} />
        </div>
        <NoteField label={words.tableRows} hint={words.tableHint} value={text} onValue={setText} />
        <p class="small soft">{words.tableExample}</p>
      </RecordForm>
    </details>
  );
}
