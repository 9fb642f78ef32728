import { useEffect, useState } from 'preact/hooks';
import type { Problem } from '../api/client.ts';
import { record } from '../api/orders.ts';
import type { SettingsSaid } from '../api/studio.ts';
import { settings as said, useMaterials } from '../api/use-materials.ts';
import { localeHere, setLocaleHere } from '../app/habits.ts';
import { Page } from '../app/page.tsx';
import { SelectField, TextField } from '../parts/field.tsx';
import { ProblemSaid } from '../parts/problem.tsx';
import { byItself } from '../words/by-itself.ts';
import { settings as words } from '../words/materials.ts';
import { phone } from '../words/network.ts';
import { dayText, moneyText, today } from '../words/numbers.ts';
import { shell } from '../words/shell.ts';
import { Calendar } from './calendar.tsx';
import { Notices } from './notices.tsx';

const ZONES: readonly string[] = Intl.supportedValuesOf('timeZone');
const LOCALES = [
  'en-GB',
  'en-US',
  'en-IE',
  'en-AU',
  'en-CA',
  'de-DE',
  'fr-FR',
  'nl-NL',
  'sv-SE',
  'es-ES',
  'it-IT',
  'pt-PT',
  'da-DK',
  'fi-FI',
  'pl-PL',
  'ja-JP',
];

/** The studio's name, zone, money and year; and how dates read on this device. */
export default function Settings() {
  useMaterials();
  const now = said.value;
  return (
    <Page title={words.title}>
      {now ? <Studio now={now} /> : <p class="waiting">{shell.waiting}</p>}
      <Device />
      <Calendar />
      <Notices />
      <section class="part">
        <h2>{byItself.title}</h2>
        <p>
          <a class="reach-line" href="/settings/by-itself">
            {byItself.about}
          </a>
        </p>
      </section>
      <section class="part">
        <h2>{phone.title}</h2>
        <p>
          <a class="reach-line" href="/settings/phone">
            {phone.about}
          </a>
        </p>
      </section>
    </Page>
  );
}

/** Days of a month that may start a year, 29 February among them. */
const daysOf = (month: string): number => new Date(Date.UTC(2024, Number(month), 0)).getUTCDate();

function Studio({ now }: { readonly now: SettingsSaid }) {
  const [draft, setDraft] = useState(now);
  const [problem, setProblem] = useState<Problem>();
  useEffect(() => setDraft(now), [now]);
  const set = (name: keyof SettingsSaid) => (value: string) => setDraft({ ...draft, [name]: value });
  const [month, day] = draft.yearStart.split('-') as [string, string];
  const months = Array.from({ length: 12 }, (_, n) => ({
    value: String(n + 1).padStart(2, '0'),
    label: new Intl.DateTimeFormat(localeHere(), { month: 'long', timeZone: 'UTC' }).format(
      new Date(Date.UTC(2026, n, 15)),
    ),
  }));
  const days = Array.from({ length: daysOf(month) }, (_, n) => String(n + 1).padStart(2, '0')).map(
    (value) => ({
      value,
      label: String(Number(value)),
    }),
  );
  const submit = async (event: Event) => {
    event.preventDefault();
    const input = { ...draft, studio: draft.studio.trim(), currency: draft.currency.trim().toUpperCase() };
    setProblem((await record([{ command: 'studio.set', input }], words.saved)).problem);
  };
  const wrong = (field: string) => (problem?.field === field ? problem.sentence : undefined);
  return (
    <form onSubmit={submit}>
      <TextField
        label={words.studio}
        hint={words.studioHint}
        wrong={wrong('studio')}
        value={draft.studio}
        onValue={set('studio')}
        input={{ required: true, maxLength: 120 }}
      />
      <SelectField
        label={words.zone}
        hint={words.zoneHint}
        value={draft.zone}
        onValue={set('zone')}
        options={[...new Set(['UTC', draft.zone, ...ZONES])].map((value) => ({
          value,
          label: value.replaceAll('_', ' '),
        }))}
      />
      <TextField
        label={words.currency}
        hint={words.currencyHint}
        wrong={wrong('currency')}
        value={draft.currency}
        onValue={set('currency')}
        input={{ required: true, maxLength: 3, pattern: '[A-Za-z]{3}', autocomplete: 'off' }}
      />
      <div class="side-by-side">
        <SelectField
          label={words.yearMonth}
          value={month}
          onValue={(value) => set('yearStart')(`${value}-${Number(day) > daysOf(value) ? '01' : day}`)}
          options={months}
        />
        <SelectField
          label={words.yearDay}
          value={day}
          onValue={(value) => set('yearStart')(`${month}-${value}`)}
          options={days}
        />
      </div>
      {problem && <ProblemSaid problem={problem} />}
      <p class="buttons">
        <button type="submit" class="main">
          {words.submit}
        </button>
      </p>
    </form>
  );
}

function Device() {
  const [locale, setLocale] = useState(localeHere());
  const names = new Intl.DisplayNames([locale], { type: 'language' });
  return (
    <section class="part">
      <h2>{words.device}</h2>
      <SelectField
        label={words.locale}
        hint={words.localeHint}
        value={locale}
        onValue={(value) => {
          setLocale(value);
          setLocaleHere(value);
        }}
        options={[...new Set([locale, ...LOCALES])].map((value) => ({
          value,
          label: names.of(value) ?? value,
        }))}
      />
      <p class="soft">
        {dayText(today())} · {moneyText(123456)}
      </p>
    </section>
  );
}
