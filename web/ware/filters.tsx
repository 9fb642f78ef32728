import './filters.css';
import { useState } from 'preact/hooks';
import { GRADES, STAGES } from '../../server/contract/trade.ts';
import { type FiringRow, nameText } from '../api/studio.ts';
import { useMaterials, usePeople } from '../api/use-materials.ts';
import { useReport } from '../api/use-report.ts';
import { type Option, SelectField, TextField } from '../parts/field.tsx';
import { FoldOut } from '../parts/fold-out.tsx';
import { PastFields } from '../parts/past.tsx';
import { nearDayText } from '../words/numbers.ts';
import { gradeNames, ownerNames, stageNames } from '../words/trade.ts';
import { ware } from '../words/ware.ts';

export type Query = Readonly<Record<string, string>>;

const NARROWING = [
  'q',
  'stage',
  'owner',
  'glaze',
  'clay',
  'firing',
  'fault',
  'grade',
  'schedule',
  'kiln',
  'bisqueSchedule',
  'bisqueKiln',
  'from',
  'to',
] as const;
const BEHIND: readonly string[] = NARROWING.slice(2);

/** The parameters that narrow the list, of those that are set. */
export const narrowing = (query: Query): readonly string[] => NARROWING.filter((name) => query[name]);

interface Props {
  readonly query: Query;
  readonly go: (params: Record<string, string | undefined>) => void;
}

/** One row in sight (search and stage), the rest one step behind. */
export function Filters({ query, go }: Props) {
  const [words, setWords] = useState(query.q ?? '');
  const { after: _, ...kept } = query;
  const set = (name: string) => (value: string) => go({ ...kept, [name]: value || undefined });
  const stages = [
    { value: 'here', label: ware.here },
    ...STAGES.map((stage) => ({ value: stage, label: stageNames[stage] })),
  ];
  return (
    <form
      class="filters"
      aria-label={ware.narrow}
      onSubmit={(event) => {
        event.preventDefault();
        go({ ...kept, q: words.trim() || undefined });
      }}
    >
      <div class="side-by-side">
        <TextField
          label={ware.search}
          type="search"
          value={words}
          onValue={setWords}
          input={{ enterkeyhint: 'search', autocomplete: 'off' }}
        />
        <button type="submit">{ware.find}</button>
        <SelectField
          label={ware.stage}
          value={query.stage ?? ''}
          onValue={set('stage')}
          options={stages}
          none={ware.any}
        />
      </div>
      <FoldOut summary={ware.more} open={BEHIND.some((name) => query[name])}>
        {() => <Narrower query={query} set={set} />}
      </FoldOut>
      <PastFields query={query} set={set} />
      {narrowing(query).length > 0 && (
        <p>
          <button
            type="button"
            class="plain"
            onClick={() => {
              setWords('');
              go({});
            }}
          >
            {ware.showAll}
          </button>
        </p>
      )}
    </form>
  );
}

const gradeChoices: readonly Option[] = [
  ...GRADES.map((grade) => ({ value: grade, label: gradeNames[grade] })),
  { value: 'second,waster', label: ware.secondOrWaster },
  { value: 'none', label: ware.notGraded },
];

interface NarrowerProps {
  readonly query: Query;
  readonly set: (name: string) => (value: string) => void;
}

function Narrower({ query, set }: NarrowerProps) {
  const materials = useMaterials();
  const people = usePeople();
  const firings = useReport<FiringRow>('studio/firings').answer?.rows ?? [];
  const select = (name: string, label: string, options: readonly Option[]) => (
    <SelectField
      label={label}
      value={query[name] ?? ''}
      onValue={set(name)}
      options={options}
      none={ware.any}
    />
  );
  const owners = [
    ...Object.entries(ownerNames).map(([value, label]) => ({ value, label })),
    ...people
      .filter((p) => !p.forgotten)
      .map((p) => ({ value: p.person, label: nameText(p.name) ?? p.person })),
  ];
  const firingNames = firings.map((f) => ({
    value: f.firing,
    label: [f.label ?? f.kilnName, (f.litAt ?? f.packedAt) && nearDayText((f.litAt ?? f.packedAt)!)]
      .filter(Boolean)
      .join(', '),
  }));
  return (
    <div class="side-by-side">
      {select('grade', ware.grade, gradeChoices)}
      {select('fault', ware.fault, materials.of('fault'))}
      {select('glaze', ware.glaze, materials.of('glaze'))}
      {select('clay', ware.clay, materials.of('clay'))}
      {select('owner', ware.owner, owners)}
      {select('firing', ware.firing, firingNames)}
      {select('schedule', ware.schedule, materials.of('schedule'))}
      {select('kiln', ware.kiln, materials.of('kiln'))}
      <TextField label={ware.from} type="date" value={query.from ?? ''} onValue={set('from')} />
      <TextField label={ware.to} type="date" value={query.to ?? ''} onValue={set('to')} />
    </div>
  );
}
