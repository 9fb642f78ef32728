import './fault-fields.css';
import { useId } from 'preact/hooks';
import { useMaterials } from '../api/use-materials.ts';
import { Pot } from '../drawings/pot.tsx';

interface Props {
  readonly legend: string;
  readonly hint?: string;
  readonly zone: string;
  readonly onZone: (zone: string) => void;
  /** Zones that have something on them. */
  readonly filled?: readonly string[];
  /** A fault that is marked where it is seen. */
  readonly fault?: string;
  /** What the choice of no zone says; without it a zone must be chosen. */
  readonly none?: string;
}

/** A zone, touched on the pot's drawing or chosen as a word: one choice, two ways to it. */
export function ZonePick({ legend, hint, zone, onZone, filled = [], fault, none }: Props) {
  const materials = useMaterials();
  const name = useId();
  const zones = [...(none === undefined ? [] : [{ value: '', label: none }]), ...materials.of('zone')];
  return (
    <fieldset>
      <legend>{legend}</legend>
      {hint && <p class="hint">{hint}</p>}
      <div class="zone-pick">
        <Pot
          filled={filled}
          chosen={zone}
          faults={fault ? [{ kind: fault, zone }] : []}
          onPick={onZone}
          size="large"
        />
        <div class="choices">
          {zones.map((option) => (
            <label key={option.value}>
              <input
                type="radio"
                name={name}
                value={option.value}
                checked={zone === option.value}
                onChange={() => onZone(option.value)}
              />
              {option.label}
            </label>
          ))}
        </div>
      </div>
    </fieldset>
  );
}
