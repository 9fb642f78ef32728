import './fault-fields.css';
import { useId } from 'preact/hooks';
import { useMaterials } from '../api/use-materials.ts';
import { FaultMark } from '../drawings/fault-mark.tsx';
import { GuideHere } from '../guide/guide-here.tsx';
import { move as words } from '../words/piece.ts';
import { Choices } from './choices.tsx';
import { CountField } from './count-field.tsx';
import { TextField } from './field.tsx';
import { ZonePick } from './zone-pick.tsx';

export interface FaultDraft {
  readonly kind: string;
  readonly zone: string;
  readonly count: number;
  /** Largest extent in mm, as typed. */
  readonly size: string;
  readonly severity: string;
}

export const blankFault: FaultDraft = { kind: '', zone: '', count: 1, size: '', severity: '' };

export const faultInput = (fault: FaultDraft) => ({
  kind: fault.kind,
  count: fault.count,
  ...(fault.zone ? { zone: fault.zone } : {}),
  ...(Number(fault.size) > 0 ? { size: Number(fault.size) } : {}),
  ...(fault.severity ? { severity: fault.severity } : {}),
});

const SHARP: readonly string[] = ['shivering', 'stilt-marks', 'runs', 'stuck', 'broken'];
/** Whether the fault leaves splinters or points on the ware. */
export const isSharp = (kind: string): boolean => SHARP.includes(kind);

interface Props {
  readonly fault: FaultDraft;
  readonly onFault: (fault: FaultDraft) => void;
  /** Pieces of the lot. */
  readonly of: number;
}

/** Kind by its mark and name, zone on the pot, how bad, how large, on how many. */
export function FaultFields({ fault, onFault, of }: Props) {
  const materials = useMaterials();
  const name = useId();
  const set =
    <K extends keyof FaultDraft>(field: K) =>
    (value: FaultDraft[K]) =>
      onFault({ ...fault, [field]: value });
  const severities = (['slight', 'plain', 'bad'] as const).map((value) => ({
    value,
    label: words.fault[value],
  }));
  return (
    <>
      <fieldset>
        <legend>{words.fault.kind}</legend>
        <div class="choices faults">
          {materials.of('fault').map((option) => (
            <label key={option.value}>
              <input
                type="radio"
                name={name}
                value={option.value}
                checked={fault.kind === option.value}
                onChange={() => set('kind')(option.value)}
              />
              <FaultMark kind={option.value} />
              {option.label}
            </label>
          ))}
        </div>
      </fieldset>
      {fault.kind && (
        <GuideHere key={fault.kind} fault={fault.kind} name={materials.name('fault', fault.kind)} />
      )}
      <ZonePick
        legend={words.zone}
        zone={fault.zone}
        fault={fault.kind}
        onZone={set('zone')}
        none={words.zoneNone}
      />
      {of > 1 && (
        <CountField label={words.some} value={fault.count} onValue={set('count')} min={1} max={of} />
      )}
      <details>
        <summary>{words.fault.more}</summary>
        <Choices
          legend={words.fault.severity}
          value={fault.severity}
          onValue={set('severity')}
          options={severities}
        />
        <TextField
          label={words.fault.size}
          type="number"
          value={fault.size}
          onValue={set('size')}
          input={{ min: 0.1, max: 2000, step: 'any', inputMode: 'decimal' }}
          optional
        />
      </details>
    </>
  );
}
