import './review.css';
import { useState } from 'preact/hooks';
import type { InputField, OfferedReport } from '../api/plugins.ts';
import { settings, useMaterials } from '../api/use-materials.ts';
import { Several } from '../parts/choices.tsx';
import { type Option, SelectField, TextField } from '../parts/field.tsx';
import { PastFields } from '../parts/past.tsx';
import { sentenceCase, today } from '../words/numbers.ts';
import { reportFields, review as words } from '../words/review.ts';
import { named, ownerNames } from '../words/trade.ts';
import { PERIODS, type Period, periodOf, spanOf } from './period.ts';

type Query = Readonly<Record<string, string>>;
type Go = (params: Record<string, string | undefined>) => void;

interface Props {
  readonly input: OfferedReport['input'];
  readonly query: Query;
  readonly go: Go;
}

const OWN_FIELDS: readonly string[] = ['from', 'to', 'owners', 'limit', 'after'];

/** What can be asked of a report, made from the shape of its input: a time, whose ware, and its own fields. */
export function AskFor({ input, query, go }: Props) {
  const fields = input.properties ?? {};
  const set = (name: string) => (value: string) => go({ ...query, [name]: value || undefined });
  const own = Object.entries(fields).filter(([name]) => !OWN_FIELDS.includes(name));
  return (
    <form class="filters ask-for" onSubmit={(event) => event.preventDefault()}>
      {'from' in fields && <PeriodPick query={query} go={go} />}
      <details open={own.some(([name]) => query[name]) || !!query.owners}>
        <summary>{words.more}</summary>
        {'owners' in fields && (
          <Several
            legend={words.owners}
            values={(query.owners ?? String(fields.owners?.default ?? 'own,commission')).split(',')}
            onValues={(values) => set('owners')(values.join(','))}
            options={Object.entries(ownerNames).map(([value, label]) => ({ value, label }))}
          />
        )}
        <div class="side-by-side">
          {own.map(([name, field]) => (
            <OwnField key={name} name={name} field={field} value={query[name] ?? ''} onValue={set(name)} />
          ))}
        </div>
      </details>
      <PastFields query={query} set={set} />
    </form>
  );
}

interface OwnProps {
  readonly name: string;
  readonly field: InputField;
  readonly value: string;
  readonly onValue: (value: string) => void;
}

/** Fields that name something of the studio's, with what can be chosen for them. */
const CHOSEN = { glaze: 'glaze', clay: 'clay', kiln: 'kiln', schedule: 'schedule' } as const;
const isChosen = (name: string): name is keyof typeof CHOSEN => Object.hasOwn(CHOSEN, name);

/** What a field can be, when it is one of few; undefined where it is written freely. */
function useOptions(name: string): readonly Option[] | undefined {
  const materials = useMaterials();
  if (!materials.known) return undefined;
  if (isChosen(name)) return materials.of(CHOSEN[name]);
  if (name !== 'outcome') return undefined;
  const grades = Object.entries(words.outcomes).map(([value, label]) => ({ value, label }));
  return [...grades, ...materials.of('fault')];
}

/** An address may name a material as it is called instead of by its handle. */
const valueIn = (options: readonly Option[], value: string): string =>
  (
    options.find((it) => it.value === value) ??
    options.find((it) => it.label.toLowerCase() === value.toLowerCase())
  )?.value ?? value;

function OwnField({ name, field, value, onValue }: OwnProps) {
  const label = reportFields[name] ?? sentenceCase(named({}, name));
  const options = useOptions(name);
  const fallback = field.default === undefined ? '' : String(field.default);
  if (options && (value === '' || options.some((it) => it.value === valueIn(options, value))))
    return (
      <SelectField
        label={label}
        value={valueIn(options, value || fallback)}
        onValue={onValue}
        options={options}
        none={fallback === '' ? words.any : undefined}
      />
    );
  if (field.enum) {
    const options = field.enum.map((each) => ({ value: each, label: named({}, each) }));
    const first = field.default === undefined ? words.any : undefined;
    return (
      <SelectField
        label={label}
        value={value || String(field.default ?? '')}
        onValue={onValue}
        options={options}
        none={first}
      />
    );
  }
  return (
    <TextField
      label={label}
      type={field.format === 'date' ? 'date' : 'text'}
      value={value}
      onValue={onValue}
    />
  );
}

/** A named time in one choice; other days by two fields. */
function PeriodPick({ query, go }: { readonly query: Query; readonly go: Go }) {
  const yearStart = settings.value?.yearStart;
  const span = { from: query.from, to: query.to };
  const [own, setOwn] = useState(periodOf(span, today(), yearStart) === undefined);
  const chosen = own ? 'own' : (periodOf(span, today(), yearStart) ?? 'own');
  const options = [...PERIODS, 'own' as const].map((value) => ({ value, label: words.periods[value] }));
  const pick = (value: string) => {
    setOwn(value === 'own');
    if (value !== 'own')
      go({ ...query, from: undefined, to: undefined, ...spanOf(value as Period, today(), yearStart) });
  };
  return (
    <div class="side-by-side">
      <SelectField label={words.period} value={chosen} onValue={pick} options={options} />
      {chosen === 'own' && (
        <>
          <TextField
            label={words.from}
            type="date"
            value={query.from ?? ''}
            onValue={(from) => go({ ...query, from: from || undefined })}
          />
          <TextField
            label={words.to}
            type="date"
            value={query.to ?? ''}
            onValue={(to) => go({ ...query, to: to || undefined })}
          />
        </>
      )}
    </div>
  );
}
