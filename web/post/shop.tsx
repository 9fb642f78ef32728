import './post.css';
import { useState } from 'preact/hooks';
import { noteText } from '../api/studio.ts';
import { useReport } from '../api/use-report.ts';
import { Page } from '../app/page.tsx';
import { Shown } from '../parts/asked.tsx';
import { NoteField, TextField } from '../parts/field.tsx';
import { post } from '../words/post.ts';
import { shop as words } from '../words/shop.ts';
import { tariff } from '../words/tariff.ts';
import { Packagings } from './packagings.tsx';
import { Rates } from './rates.tsx';
import { RecordForm } from './record-form.tsx';
import { Tables } from './tariff-tables.tsx';
import type { ShopMore } from './types.ts';

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
              <h2>{words.rates}</h2>
              <Rates key={JSON.stringify(more.facts.customs)} facts={more.facts} />
            </section>
            <section class="part">
              <h2>{words.tariffs}</h2>
              <p class="prose">{words.tariffsLead}</p>
              {more.tariffs.map((versions) => (
                <Tables key={versions[0]!.tariff} versions={versions} />
              ))}
              <p class="buttons">
                <a class="button" href="/post/tariff">
                  {tariff.write}
                </a>
              </p>
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
  const [level, setLevel] = useState(String(Math.round(facts.serviceLevel * 1000) / 10));
  const input = {
    serviceLevel: Number(level) / 100,
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
          <TextField
            label={words.serviceLevel}
            hint={words.serviceLevelHint}
            type="number"
            value={level}
            onValue={setLevel}
            input={{ min: 50, max: 99.9, step: 'any', inputMode: 'decimal' }}
          />
        </div>
      </RecordForm>
    </section>
  );
}
