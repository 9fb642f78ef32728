import { useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import type { Problem } from '../api/client.ts';
import { newId } from '../api/ids.ts';
import { record } from '../api/orders.ts';
import { nameText } from '../api/studio.ts';
import { useMaterials, usePeople } from '../api/use-materials.ts';
import { Page } from '../app/page.tsx';
import { Choices } from '../parts/choices.tsx';
import { CountField } from '../parts/count-field.tsx';
import { SelectField, TextField } from '../parts/field.tsx';
import { MoneyField, readMoney } from '../parts/money-field.tsx';
import { ProblemSaid } from '../parts/problem.tsx';
import { useWhen } from '../parts/when.tsx';
import { howNames, ownerNames } from '../words/trade.ts';
import { ware, begin as words } from '../words/ware.ts';

const options = (names: Readonly<Record<string, string>>) =>
  Object.entries(names).map(([value, label]) => ({ value, label }));

const blank = {
  form: '',
  count: 1,
  clay: '',
  how: '',
  owner: 'own',
  person: '',
  mark: '',
  price: '',
  secondPrice: '',
  width: '',
  height: '',
  measured: 'fired',
};
type Draft = typeof blank;

/** Only what was said goes into the record. */
export function beginInput(draft: Draft, piece: string): Record<string, unknown> {
  const size = {
    ...(Number(draft.width) > 0 ? { width: Number(draft.width) } : {}),
    ...(Number(draft.height) > 0 ? { height: Number(draft.height) } : {}),
  };
  const said = {
    form: draft.form.trim(),
    clay: draft.clay,
    how: draft.how,
    mark: draft.mark.trim(),
    price: readMoney(draft.price),
    secondPrice: readMoney(draft.secondPrice),
    size: Object.keys(size).length > 0 ? { ...size, measured: draft.measured } : undefined,
  };
  const owner = draft.owner === 'own' ? { kind: 'own' } : { kind: draft.owner, person: draft.person };
  return {
    piece,
    count: draft.count,
    owner,
    ...Object.fromEntries(Object.entries(said).filter(([, value]) => value)),
  };
}

export default function Begin() {
  const { route } = useLocation();
  const [draft, setDraft] = useState(blank);
  const [piece] = useState(() => newId());
  const [problem, setProblem] = useState<Problem>();
  const materials = useMaterials();
  const people = usePeople();
  const when = useWhen();
  const set =
    <K extends keyof Draft>(name: K) =>
    (value: Draft[K]) =>
      setDraft((before) => ({ ...before, [name]: value }));
  const clays = materials.of('clay');

  const submit = async (event: Event) => {
    event.preventDefault();
    const where = `/ware/${piece}`;
    const sentence = words.done(draft.count, draft.form.trim() || ware.piece);
    const sent = await record(
      [{ command: 'piece.begin', input: beginInput(draft, piece), ...when.happenedAt }],
      sentence,
      where,
    );
    setProblem(sent.problem);
    if (sent.recorded) route(where);
  };

  return (
    <Page title={words.title} back={{ href: '/ware', to: ware.title }}>
      <form onSubmit={submit}>
        <TextField
          label={words.form}
          hint={words.formHint}
          value={draft.form}
          onValue={set('form')}
          input={{ maxLength: 120, autocomplete: 'off' }}
        />
        <CountField
          label={words.count}
          hint={words.countHint}
          value={draft.count}
          onValue={set('count')}
          min={1}
        />
        {materials.known && clays.length === 0 ? (
          <p class="field">
            {words.noClays} <a href="/materials">{words.addClay}</a>.
          </p>
        ) : (
          <SelectField
            label={words.clay}
            value={draft.clay}
            onValue={set('clay')}
            options={clays}
            none={words.clayNone}
          />
        )}
        <Choices legend={words.how} value={draft.how} onValue={set('how')} options={options(howNames)} />
        <Choices
          legend={words.owner}
          value={draft.owner}
          onValue={set('owner')}
          options={options(ownerNames)}
        />
        {draft.owner !== 'own' && (
          <>
            <SelectField
              label={words.person}
              hint={words.personHint}
              value={draft.person}
              onValue={set('person')}
              options={people
                .filter((p) => !p.forgotten)
                .map((p) => ({ value: p.person, label: nameText(p.name) ?? p.person }))}
              none={words.personNone}
            />
            <p>
              <a href="/people">{words.addPerson}</a>
            </p>
          </>
        )}
        <details>
          <summary>{words.moreToSay}</summary>
          <TextField
            label={words.mark}
            hint={words.markHint}
            value={draft.mark}
            onValue={set('mark')}
            input={{ maxLength: 24, autocomplete: 'off', autocapitalize: 'characters' }}
          />
          <div class="side-by-side">
            <TextField
              label={`${words.width} (mm)`}
              type="number"
              value={draft.width}
              onValue={set('width')}
              input={{ min: 1, max: 5000, inputMode: 'numeric' }}
            />
            <TextField
              label={`${words.height} (mm)`}
              type="number"
              value={draft.height}
              onValue={set('height')}
              input={{ min: 1, max: 5000, inputMode: 'numeric' }}
            />
          </div>
          <Choices
            legend={words.measured}
            value={draft.measured}
            onValue={set('measured')}
            options={[
              { value: 'wet', label: words.wet },
              { value: 'dry', label: words.dry },
              { value: 'fired', label: words.fired },
            ]}
          />
          <div class="side-by-side">
            <MoneyField label={words.price} value={draft.price} onValue={set('price')} />
            <MoneyField label={words.secondPrice} value={draft.secondPrice} onValue={set('secondPrice')} />
          </div>
        </details>
        {when.field}
        {problem && <ProblemSaid problem={problem} />}
        <p class="buttons">
          <button type="submit" class="main">
            {words.submit(draft.count)}
          </button>
        </p>
      </form>
    </Page>
  );
}
