import { useMemo, useState } from 'preact/hooks';
import { templateFor } from '../../plugins/template-sheets/template.ts';
import type { Problem } from '../api/client.ts';
import { record } from '../api/orders.ts';
import { useMaterials } from '../api/use-materials.ts';
import { SelectField, TextField } from '../parts/field.tsx';
import { ProblemSaid } from '../parts/problem.tsx';
import { rateText } from '../words/numbers.ts';
import { templates as words } from '../words/templates.ts';
import {
  type Draft,
  type DraftForm,
  draftOf,
  FIELDS,
  firstDraft,
  isWalled,
  type Measure,
  specOf,
} from './draft.ts';
import { type Brought, FromScan, FromSvg } from './from-file.tsx';
import { Flat, Round } from './pictures.tsx';

export const PAPERS = ['A4', 'A3', 'Letter', 'Tabloid', 'roll 610'] as const;
type Way = keyof typeof words.ways;

interface Props {
  /** The one that is changed; a new one when absent. */
  readonly kept?: {
    readonly template: string;
    readonly name: string;
    readonly spec: Record<string, unknown>;
    readonly clay?: string;
  };
  readonly onKept: () => void;
}

export function Make({ kept, onKept }: Props) {
  const drawn = kept?.spec.form === 'drawing';
  const [way, setWay] = useState<Way>(drawn ? 'svg' : 'measures');
  const [draft, setDraft] = useState<Draft>(kept && !drawn ? draftOf(kept.spec) : firstDraft);
  const [brought, setBrought] = useState<Brought>({ spec: drawn ? kept.spec : undefined, said: [] });
  const [name, setName] = useState(kept?.name ?? '');
  const [missing, setMissing] = useState(false);
  const [clay, setClay] = useState(kept?.clay ?? '');
  const [paper, setPaper] = useState('A4');
  const [problem, setProblem] = useState<Problem>();
  const clays = useMaterials().rows.filter(
    (row) => row.kind === 'clay' && typeof row.facts.shrinkage === 'number',
  );
  const shrinkage = clays.find((row) => row.id === clay)?.facts.shrinkage as number | undefined;
  const bare = way === 'measures' ? specOf(draft) : brought.spec;
  const spec =
    bare === undefined
      ? undefined
      : {
          ...(bare as object),
          ...(name.trim() ? { name: name.trim() } : {}),
          ...(shrinkage ? { shrinkage } : {}),
        };
  const typed = JSON.stringify(spec);
  const made = useMemo(
    () => (typed === undefined ? undefined : templateFor(JSON.parse(typed), paper)),
    [typed, paper],
  );
  const bring = (next: Brought) => {
    setBrought(next);
    if (next.name && !name) setName(next.name);
  };
  const submit = async (event: Event) => {
    event.preventDefault();
    setMissing(!name.trim());
    if (!name.trim() || !made || 'wrong' in made) return;
    const input = {
      ...(kept ? { template: kept.template } : {}),
      name: name.trim(),
      spec: made.spec,
      ...(clay ? { clay } : {}),
    };
    const wish = { command: kept ? 'template.change' : 'template.draw', input };
    const sent = await record([wish], words.wasKept(name.trim()));
    setProblem(sent.problem);
    if (!sent.problem) onKept();
  };
  return (
    <form onSubmit={submit} class="template-make">
      <TextField
        label={words.name}
        wrong={missing ? words.nameMissing : undefined}
        value={name}
        onValue={setName}
        input={{ maxLength: 120, autocomplete: 'off' }}
      />
      <SelectField
        label={words.from}
        value={way}
        onValue={(to) => setWay(to as Way)}
        options={optionsOf(words.ways)}
      />
      {way === 'measures' && <Measures draft={draft} onDraft={setDraft} />}
      {way === 'svg' && <FromSvg onBrought={bring} />}
      {way === 'scan' && <FromScan onBrought={bring} />}
      <div class="side-by-side">
        <SelectField
          label={words.clay}
          hint={words.clayHint}
          value={clay}
          onValue={setClay}
          none={words.noClay}
          options={clays.map((row) => ({
            value: row.id,
            label: `${row.name}, ${words.shrinks(rateText(row.facts.shrinkage as number))}`,
          }))}
        />
        <SelectField
          label={words.paper}
          value={paper}
          onValue={setPaper}
          options={PAPERS.map((value) => ({ value, label: value }))}
        />
      </div>
      {way !== 'measures' && brought.said.length > 0 && <List title={words.leftOut} lines={brought.said} />}
      {made && <Seen made={made} />}
      {problem && <ProblemSaid problem={problem} />}
      <p class="buttons">
        <button type="submit" class="main" disabled={!made || 'wrong' in made}>
          {kept ? words.keepChange : words.keep}
        </button>
      </p>
    </form>
  );
}

const optionsOf = (names: Readonly<Record<string, string>>) =>
  Object.entries(names).map(([value, label]) => ({ value, label }));

function Measures({ draft, onDraft }: { readonly draft: Draft; readonly onDraft: (draft: Draft) => void }) {
  const names: readonly Measure[] = [
    ...FIELDS[draft.form],
    'thickness',
    ...(isWalled(draft.form) ? (['seam'] as const) : []),
  ];
  return (
    <>
      <SelectField
        label={words.form}
        value={draft.form}
        onValue={(form) => onDraft({ ...draft, form: form as DraftForm })}
        options={optionsOf(words.forms)}
      />
      <div class="side-by-side">
        {names.map((measure) => (
          <TextField
            key={measure}
            label={words.measures[measure]}
            hint={measure === 'thickness' ? words.thicknessHint : undefined}
            type="number"
            value={draft.measures[measure] ?? ''}
            onValue={(value) => onDraft({ ...draft, measures: { ...draft.measures, [measure]: value } })}
            input={{ min: 0, step: 'any', inputMode: 'decimal' }}
          />
        ))}
      </div>
      {isWalled(draft.form) && (
        <label class="tick">
          <input
            type="checkbox"
            checked={draft.base}
            onChange={(event) => onDraft({ ...draft, base: event.currentTarget.checked })}
          />
          {words.base}
        </label>
      )}
    </>
  );
}

/** The pot, its pieces, and what was looked at; or why it cannot be. */
function Seen({ made }: { readonly made: NonNullable<ReturnType<typeof templateFor>> }) {
  if ('wrong' in made) return <List title="" lines={made.wrong} alarm />;
  const { spec, sheets } = made;
  return (
    <>
      <div class="template-seen">
        {spec.form !== 'drawing' && <Round spec={spec} />}
        <Flat pieces={made.made.pieces} />
      </div>
      <details>
        <summary>
          {words.checks}: {words.pages(sheets.sheets.length, sheets.page.paper.name)}
        </summary>
        <ul>
          {sheets.checks.map(({ passed, sentence }) => (
            <li key={sentence}>
              {passed ? words.holds : words.fails} {sentence}
            </li>
          ))}
        </ul>
      </details>
    </>
  );
}

const List = ({
  title,
  lines,
  alarm,
}: {
  readonly title: string;
  readonly lines: readonly string[];
  readonly alarm?: boolean;
}) => (
  <div role={alarm ? 'alert' : undefined} class={alarm ? 'wrong' : undefined}>
    {title && <p>{title}</p>}
    <ul>
      {lines.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  </div>
);
