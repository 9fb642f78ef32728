import { useState } from 'preact/hooks';
import { FIRING_ROLES } from '../../server/contract/trade.ts';
import type { Problem } from '../api/client.ts';
import { record } from '../api/orders.ts';
import type { MaterialKind } from '../api/studio.ts';
import { NoteField, SelectField, TextField } from '../parts/field.tsx';
import { ProblemSaid } from '../parts/problem.tsx';
import { materials as words } from '../words/materials.ts';
import { move } from '../words/piece.ts';
import { roleNames } from '../words/trade.ts';
import { CONES } from './cones.ts';
import { blank, type Draft, materialInput } from './draft.ts';
import { Segments } from './segments.tsx';

interface Props {
  readonly kind: MaterialKind;
  /** The one that is changed; a new one when absent. */
  readonly id?: string;
  readonly first?: Draft;
  readonly onDone?: () => void;
}

const ADD: Readonly<Record<MaterialKind, string>> = {
  clay: 'clay.add',
  glaze: 'glaze.add',
  schedule: 'schedule.write',
  kiln: 'kiln.add',
};
const CHANGE: Readonly<Record<MaterialKind, string>> = {
  clay: 'clay.change',
  glaze: 'glaze.change',
  schedule: 'schedule.write',
  kiln: 'kiln.change',
};

export function MaterialForm({ kind, id, first = blank, onDone }: Props) {
  const [draft, setDraft] = useState(first);
  const [problem, setProblem] = useState<Problem>();
  const [missing, setMissing] = useState(false);
  const set =
    <K extends keyof Draft>(name: K) =>
    (value: Draft[K]) =>
      setDraft((before) => ({ ...before, [name]: value }));
  const submit = async (event: Event) => {
    event.preventDefault();
    setMissing(!draft.name.trim());
    if (!draft.name.trim()) return;
    const command = id ? CHANGE[kind] : ADD[kind];
    const said = id ? words.changed(draft.name.trim()) : words.added(draft.name.trim());
    const sent = await record([{ command, input: materialInput(kind, draft, id) }], said);
    setProblem(sent.problem);
    if (sent.problem) return;
    if (!id) setDraft(blank);
    onDone?.();
  };
  return (
    <form onSubmit={submit}>
      <TextField
        label={words.name}
        wrong={missing ? words.missing : undefined}
        value={draft.name}
        onValue={set('name')}
        input={{ maxLength: 120, autocomplete: 'off' }}
      />
      <OwnFields kind={kind} draft={draft} set={set} />
      <NoteField label={words.note} hint={move.noteHint} value={draft.note} onValue={set('note')} optional />
      {problem && <ProblemSaid problem={problem} />}
      <p class="buttons">
        <button type="submit" class="main">
          {id ? words.changeSubmit : words.submit}
        </button>
      </p>
    </form>
  );
}

type Set = <K extends keyof Draft>(name: K) => (value: Draft[K]) => void;
const cones = CONES.map((cone) => ({ value: cone, label: cone }));

function OwnFields({
  kind,
  draft,
  set,
}: {
  readonly kind: MaterialKind;
  readonly draft: Draft;
  readonly set: Set;
}) {
  const number = (name: 'width' | 'depth' | 'height' | 'shelves' | 'power' | 'shrinkage') => (
    <TextField
      label={words[name]}
      type="number"
      value={draft[name]}
      onValue={set(name)}
      input={{ min: 0, step: 'any', inputMode: 'decimal' }}
      optional
    />
  );
  const cone = (name: 'cone' | 'coneLow' | 'coneHigh') => (
    <SelectField
      label={words[name]}
      value={draft[name]}
      onValue={set(name)}
      options={cones}
      none={words.coneNone}
    />
  );
  if (kind === 'clay')
    return (
      <div class="side-by-side">
        {cone('coneLow')}
        {cone('coneHigh')}
        {number('shrinkage')}
      </div>
    );
  if (kind === 'glaze')
    return (
      <>
        {cone('cone')}
        <Tick label={words.costly} value={draft.costly} onValue={set('costly')} />
        <Tick label={words.fluid} value={draft.fluid} onValue={set('fluid')} />
      </>
    );
  if (kind === 'schedule')
    return (
      <>
        <div class="side-by-side">
          <SelectField
            label={words.role}
            value={draft.role}
            onValue={set('role')}
            options={FIRING_ROLES.map((value) => ({ value, label: roleNames[value] }))}
            none={words.roleNone}
          />
          {cone('cone')}
        </div>
        <Segments segments={draft.segments} onSegments={set('segments')} />
      </>
    );
  return (
    <div class="side-by-side">
      <SelectField
        label={words.shape}
        value={draft.shape}
        onValue={set('shape')}
        options={Object.entries(words.shapes).map(([value, label]) => ({ value, label }))}
        none={words.shapeNone}
      />
      {number('width')}
      {number('depth')}
      {number('height')}
      {number('shelves')}
      {number('power')}
    </div>
  );
}

const Tick = ({
  label,
  value,
  onValue,
}: {
  label: string;
  value: boolean;
  onValue: (value: boolean) => void;
}) => (
  <label class="tick">
    <input type="checkbox" checked={value} onChange={(event) => onValue(event.currentTarget.checked)} />
    {label}
  </label>
);
