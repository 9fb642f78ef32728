import { useState } from 'preact/hooks';
import { useMaterials } from '../../api/use-materials.ts';
import { FaultMark } from '../../drawings/fault-mark.tsx';
import { Pot } from '../../drawings/pot.tsx';
import { RepairMark } from '../../drawings/repair-mark.tsx';
import { Caution } from '../../parts/caution.tsx';
import { CountField } from '../../parts/count-field.tsx';
import { isSharp } from '../../parts/fault-fields.tsx';
import { KeyGrid } from '../../parts/key-grid.tsx';
import { draw as words } from '../../words/draw.ts';
import { countText, listText, sentenceCase } from '../../words/numbers.ts';
import { move } from '../../words/piece.ts';
import {
  another,
  type Grade,
  isDone,
  type Look,
  pickCount,
  pickGrade,
  pickKind,
  pickRepair,
  pickZone,
  restGood,
  restOf,
  toMend,
} from './look.ts';

type Parts = Look['parts'];

interface Props {
  readonly look: Look;
  readonly bisque: boolean;
  readonly disabled: boolean;
  readonly onLook: (look: Look) => void;
  /** All is said. */
  readonly onParts: (parts: Parts) => void;
  readonly onBack: () => void;
}

/** One question at a time: what is seen, where, on how many, how it is graded. */
export function Steps(props: Props) {
  const { look, bisque, onLook, onParts } = props;
  // The rest of a bisque lot comes by itself as a lot of its own: of what is good nothing is recorded.
  const over = (next: Look) => isDone(next) || (bisque && next.step === 'rest');
  const go = (next: Look) => (over(next) ? onParts(next.parts) : onLook(next));
  const common = { onBack: props.onBack, disabled: props.disabled, takesFocus: true };
  const materials = useMaterials();
  if (look.step === 'kind')
    return (
      <KeyGrid
        {...common}
        legend={move.fault.kind}
        keys={materials.of('fault').map((fault) => ({ ...fault, mark: <FaultMark kind={fault.value} /> }))}
        onPick={(kind) => go(pickKind(look, kind))}
      />
    );
  if (look.step === 'zone') return <Where {...props} go={go} />;
  if (look.step === 'count') return <HowMany {...props} go={go} />;
  if (look.step === 'grade') return <Graded {...props} go={go} />;
  if (look.step === 'repair')
    return (
      <KeyGrid
        {...common}
        legend={move.mend.method}
        keys={materials
          .of('repair')
          .map((repair) => ({ ...repair, mark: <RepairMark method={repair.value} /> }))}
        onPick={(repair) => go(pickRepair(look, repair))}
      />
    );
  return <Rest {...props} />;
}

type StepProps = Props & { readonly go: (look: Look) => void };

function Where({ look, go, onBack, disabled }: StepProps) {
  const materials = useMaterials();
  const pick = (zone: string) => go(pickZone(look, zone || undefined));
  return (
    <div class="where">
      <Pot filled={[]} faults={[]} onPick={pick} size="large" />
      <KeyGrid
        legend={words.whereIs(materials.name('fault', look.kind ?? ''))}
        keys={[...materials.of('zone'), { value: '', label: move.zoneNone }]}
        columns={3}
        onPick={pick}
        onBack={onBack}
        disabled={disabled}
        takesFocus
      />
    </div>
  );
}

/** Numbers that stand as keys; beyond them one counts. */
const NUMBERS = 12;

function HowMany({ look, go, onBack, disabled }: StepProps) {
  const rest = restOf(look);
  const [count, setCount] = useState(NUMBERS + 1);
  const numbers = Array.from({ length: Math.min(rest, NUMBERS) }, (_, n) => n + 1);
  return (
    <>
      <KeyGrid
        legend={words.howMany(rest)}
        keys={numbers.map((n) => ({
          value: String(n),
          label: n === rest ? words.all(n) : countText(n),
        }))}
        onPick={(n) => go(pickCount(look, Number(n)))}
        onBack={onBack}
        disabled={disabled}
        takesFocus
      />
      {rest > NUMBERS && (
        <div class="side-by-side">
          <CountField label={words.moreThan(NUMBERS)} value={count} onValue={setCount} min={1} max={rest} />
          <button type="button" onClick={() => go(pickCount(look, count))}>
            {words.these(count)}
          </button>
        </div>
      )}
    </>
  );
}

function Graded({ look, bisque, go, onBack, disabled }: StepProps) {
  const materials = useMaterials();
  const said = listText(look.seen.map(({ kind }) => materials.name('fault', kind)));
  const grade = (value: Grade) => ({ value, label: sentenceCase(words.graded[value]) });
  return (
    <>
      <Caution lines={look.seen.some(({ kind }) => isSharp(kind)) ? [move.fault.sharp] : []} />
      <KeyGrid
        legend={words.gradeOf(said, look.count ?? 1, look.of)}
        columns={3}
        keys={[
          ...(bisque ? [{ value: 'on', label: words.goesOn }] : [grade('first')]),
          grade('second'),
          grade('waster'),
          ...(bisque ? [] : [{ value: 'mend', label: words.toMend, wide: true }]),
          { value: 'another', label: words.another },
        ]}
        onPick={(value) => {
          if (value === 'another') go(another(look));
          else if (value === 'mend') go(toMend(look));
          else go(pickGrade(look, value === 'on' ? undefined : (value as Grade)));
        }}
        onBack={onBack}
        disabled={disabled}
        takesFocus
      />
    </>
  );
}

/** What is left of a lot: good, or something else is wrong with it. */
function Rest({ look, onLook, onParts, onBack, disabled }: Props) {
  const rest = restOf(look);
  return (
    <KeyGrid
      legend={words.restOf(rest)}
      columns={2}
      keys={[
        { value: 'good', label: words.restGood(rest), main: true, wide: true },
        { value: 'fault', label: words.restFault, wide: true },
      ]}
      onPick={(value) => {
        if (value === 'good') onParts(restGood(look));
        else onLook({ ...look, step: 'kind' });
      }}
      onBack={onBack}
      disabled={disabled}
      takesFocus
    />
  );
}
