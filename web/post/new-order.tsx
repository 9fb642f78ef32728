import './post.css';
import iso from 'iso-3166-1';
import { useState } from 'preact/hooks';
import { newId } from '../api/ids.ts';
import { nameText } from '../api/studio.ts';
import { usePeople } from '../api/use-materials.ts';
import { Page } from '../app/page.tsx';
import { NoteField, SelectField, TextField } from '../parts/field.tsx';
import { habits, minorUnits } from '../words/numbers.ts';
import { order, newOrder as words } from '../words/orders.ts';
import { post } from '../words/post.ts';
import { blankLine, type DraftLine, inputOf, LineFields } from './line-fields.tsx';
import { RecordForm } from './record-form.tsx';

const blank = {
  number: '',
  buyer: '',
  name: '',
  email: '',
  address: '',
  postcode: '',
  country: '',
  promise: '',
  postage: '',
  note: '',
};

/** By the names of the user's language. */
function countries() {
  const names = new Intl.DisplayNames(habits.value.locale, { type: 'region' });
  const collator = new Intl.Collator(habits.value.locale);
  return iso
    .all()
    .map(({ alpha2 }) => ({ value: alpha2, label: names.of(alpha2) ?? alpha2 }))
    .sort((a, b) => collator.compare(a.label, b.label));
}

/** An order that came by letter, at a market or over the telephone. */
export default function NewOrder() {
  const [draft, setDraft] = useState(blank);
  const [lines, setLines] = useState<readonly DraftLine[]>([blankLine()]);
  const [tracked, setTracked] = useState(false);
  const [options] = useState(countries);
  const people = usePeople().filter((person) => !person.forgotten);
  const set = (field: keyof typeof blank) => (value: string) => setDraft({ ...draft, [field]: value });
  const known = (buyer: string) => {
    const person = people.find((one) => one.person === buyer);
    setDraft({ ...draft, buyer, name: (person && nameText(person.name)) ?? draft.name });
  };
  const wish = () => {
    if (!draft.name.trim()) return { missing: words.missingName };
    if (!draft.country) return { missing: words.missingCountry };
    const read = inputOf(lines);
    if ('missing' in read) return read;
    const { currency } = habits.value;
    const postage = minorUnits(draft.postage, currency);
    if (draft.postage.trim() && postage === undefined) return { missing: order.wrongAmount };
    const texts = (['number', 'email', 'address', 'postcode', 'promise', 'note'] as const)
      .map((field) => [field, draft[field].trim()] as const)
      .filter(([, value]) => value);
    const input = {
      ...Object.fromEntries(texts),
      buyer: draft.buyer || newId(),
      name: draft.name.trim(),
      country: draft.country,
      lines: read.lines,
      ...(postage === undefined ? {} : { postage: { amount: postage, currency } }),
      ...(tracked ? { wants: { tracked } } : {}),
    };
    return { wishes: [{ command: 'order.place', input }], sentence: words.done };
  };
  return (
    <Page title={words.title} back={{ href: '/post', to: post.title }}>
      <RecordForm submit={words.submit} wish={wish} then="/post">
        {people.length > 0 && (
          <SelectField
            label={words.known}
            value={draft.buyer}
            onValue={known}
            none={words.knownNone}
            options={people.map((person) => ({
              value: person.person,
              label: nameText(person.name) ?? person.person,
            }))}
          />
        )}
        <TextField
          label={words.buyer}
          value={draft.name}
          onValue={set('name')}
          input={{ autocomplete: 'off', maxLength: 200, dir: 'auto' }}
        />
        <NoteField
          label={words.address}
          hint={words.addressHint}
          value={draft.address}
          onValue={set('address')}
          optional
        />
        <div class="side-by-side">
          <TextField label={words.postcode} value={draft.postcode} onValue={set('postcode')} optional />
          <SelectField
            label={words.country}
            value={draft.country}
            onValue={set('country')}
            none={words.countryNone}
            options={options}
          />
          <TextField
            label={words.email}
            value={draft.email}
            onValue={set('email')}
            optional
            input={{ inputMode: 'email', autocomplete: 'off' }}
          />
        </div>
        <LineFields lines={lines} onLines={setLines} />
        <div class="side-by-side">
          <TextField
            label={words.number}
            hint={words.numberHint}
            value={draft.number}
            onValue={set('number')}
            optional
          />
          <TextField
            label={words.promise}
            hint={words.promiseHint}
            type="date"
            value={draft.promise}
            onValue={set('promise')}
            optional
          />
          <TextField
            label={`${words.postage} (${habits.value.currency})`}
            value={draft.postage}
            onValue={set('postage')}
            optional
            input={{ inputMode: 'decimal', autocomplete: 'off' }}
          />
        </div>
        <label class="tick">
          <input
            type="checkbox"
            checked={tracked}
            onChange={(event) => setTracked(event.currentTarget.checked)}
          />
          {words.tracked}
        </label>
        <NoteField label={words.note} value={draft.note} onValue={set('note')} optional />
      </RecordForm>
    </Page>
  );
}
