import { METHODS } from '../../server/contract/trade.ts';
import { useMaterials } from '../api/use-materials.ts';
import { CountField } from '../parts/count-field.tsx';
import { SelectField } from '../parts/field.tsx';
import { move as words } from '../words/piece.ts';
import { methodNames } from '../words/trade.ts';

const glaze = words.glaze;

export interface LayerDraft {
  readonly glaze: string;
  readonly coats: number;
  readonly method: string;
}

export const blankLayer: LayerDraft = { glaze: '', coats: 1, method: '' };

/** Layers that have a glaze, lowest first, with a method only where one was said. */
export const layersInput = (layers: readonly LayerDraft[]) =>
  layers
    .filter((layer) => layer.glaze)
    .map(({ glaze: id, coats, method }) => ({ glaze: id, coats, ...(method ? { method } : {}) }));

interface Props {
  readonly layers: readonly LayerDraft[];
  readonly onLayers: (layers: readonly LayerDraft[]) => void;
}

/** Layers as they are laid: the first is on the clay, each next one over it. */
export function Layers({ layers, onLayers }: Props) {
  const materials = useMaterials();
  const set = (n: number, change: Partial<LayerDraft>) =>
    onLayers(layers.map((layer, at) => (at === n ? { ...layer, ...change } : layer)));
  const methods = METHODS.map((value) => ({ value, label: methodNames[value]! }));
  return (
    <fieldset>
      <legend>{glaze.layers}</legend>
      <ol class="layers">
        {layers.map((layer, n) => (
          <li key={n}>
            <SelectField
              label={layers.length > 1 ? `${glaze.layer(n + 1)}: ${glaze.glaze}` : glaze.glaze}
              value={layer.glaze}
              onValue={(id) => set(n, { glaze: id })}
              options={materials.of('glaze')}
              none={glaze.glazeNone}
            />
            <CountField
              label={glaze.coats}
              value={layer.coats}
              onValue={(coats) => set(n, { coats })}
              min={1}
              max={20}
            />
            <SelectField
              label={glaze.method}
              value={layer.method}
              onValue={(method) => set(n, { method })}
              options={methods}
              none={glaze.methodNone}
            />
            {layers.length > 1 && (
              <button
                type="button"
                class="plain"
                onClick={() => onLayers(layers.filter((_, at) => at !== n))}
              >
                {glaze.remove(n + 1)}
              </button>
            )}
          </li>
        ))}
      </ol>
      {layers.length < 12 && (
        <p class="buttons">
          <button type="button" onClick={() => onLayers([...layers, blankLayer])}>
            {glaze.another}
          </button>
        </p>
      )}
    </fieldset>
  );
}
