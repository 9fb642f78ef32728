import { useState } from 'preact/hooks';
import { TextField } from '../parts/field.tsx';
import { dayText, habits, today } from '../words/numbers.ts';
import { shop as words } from '../words/shop.ts';
import { Do, RecordForm } from './record-form.tsx';
import type { Rate, ShopMore } from './types.ts';

const same = (a: Rate, b: Rate): boolean => a.of === b.of && a.to === b.to && a.day === b.day;

/** What one unit of a currency is worth in another, with the day it was looked up; and the customs threshold. */
export function Rates({ facts }: { readonly facts: ShopMore['facts'] }) {
  const sorted = [...facts.rates].sort((a, b) => (a.day < b.day ? 1 : -1));
  return (
    <>
      <p class="prose">{words.ratesLead}</p>
      <ul class="ledger plain-ledger">
        {sorted.map((rate) => (
          <li key={`${rate.of} ${rate.to} ${rate.day}`}>
            <div class="line">
              <p class="first-line">
                <strong>{words.rateIs(rate.of, rate.rate, rate.to)}</strong>
                <span>{dayText(rate.day)}</span>
              </p>
              <p class="no-paper">
                <Do
                  label={words.rateGone(rate.of, rate.to)}
                  wish={{
                    command: 'shop.set',
                    input: { rates: facts.rates.filter((other) => !same(other, rate)) },
                  }}
                  sentence={words.saved}
                />
              </p>
            </div>
          </li>
        ))}
      </ul>
      <details class="no-paper">
        <summary>{words.addRate}</summary>
        <NewRate rates={facts.rates} />
      </details>
      <Threshold facts={facts} />
    </>
  );
}

function NewRate({ rates }: { readonly rates: readonly Rate[] }) {
  const [of, setOf] = useState('');
  const [to, setTo] = useState(habits.value.currency);
  const [worth, setWorth] = useState('');
  const [day, setDay] = useState(today());
  const code = { maxLength: 3, autocomplete: 'off', autocapitalize: 'characters' };
  const wish = () => {
    const rate = Number(worth.trim().replace(',', '.'));
    if (!/^[A-Z]{3}$/.test(of) || !/^[A-Z]{3}$/.test(to)) return { missing: words.rateCodes };
    if (!(rate > 0)) return { missing: words.rateWrong };
    const one: Rate = { of, to, rate, day };
    const others = rates.filter((other) => !same(other, one));
    return {
      wishes: [{ command: 'shop.set', input: { rates: [...others, one] } }],
      sentence: words.saved,
    };
  };
  return (
    <RecordForm now submit={words.addRate} wish={wish} onDone={() => setWorth('')}>
      <div class="side-by-side">
        <TextField
          label={words.rateOf}
          value={of}
          onValue={(value) => setOf(value.toUpperCase())}
          input={code}
        />
        <TextField
          label={words.rateWorth}
          value={worth}
          onValue={setWorth}
          input={{ inputMode: 'decimal', autocomplete: 'off' }}
        />
        <TextField
          label={words.rateTo}
          hint={words.rateToHint}
          value={to}
          onValue={(value) => setTo(value.toUpperCase())}
          input={code}
        />
        <TextField label={words.rateDay} type="date" value={day} onValue={setDay} />
      </div>
    </RecordForm>
  );
}

function Threshold({ facts }: { readonly facts: ShopMore['facts'] }) {
  const [sdr, setSdr] = useState(String(facts.customs.sdr));
  const [from, setFrom] = useState(facts.customs.from);
  return (
    <RecordForm
      now
      submit={words.save}
      wish={() =>
        Number(sdr) > 0
          ? {
              wishes: [{ command: 'shop.set', input: { customs: { sdr: Number(sdr), from } } }],
              sentence: words.saved,
            }
          : { missing: words.sdrWrong }
      }
    >
      <div class="side-by-side">
        <TextField
          label={words.sdr}
          hint={words.sdrHint}
          type="number"
          value={sdr}
          onValue={setSdr}
          input={{ min: 1, step: 'any', inputMode: 'decimal' }}
        />
        <TextField label={words.sdrDay} type="date" value={from} onValue={setFrom} />
      </div>
    </RecordForm>
  );
}
