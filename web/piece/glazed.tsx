import type { Glazing } from '../../server/contract/studio/state.ts';
import { useMaterials } from '../api/use-materials.ts';
import { type FaultAt, Pot } from '../drawings/pot.tsx';
import { piece as words } from '../words/piece.ts';
import { methodNames, named } from '../words/trade.ts';

type Layer = Glazing['layers'][number];

export const layerText = (layer: Layer, name: string): string =>
  [words.coats(name, layer.coats), layer.method && named(methodNames, layer.method)]
    .filter(Boolean)
    .join(', ');

interface Props {
  readonly glazings: readonly Pick<Glazing, 'zone' | 'layers'>[];
  readonly names: Readonly<Record<string, string>>;
  /** Marked on the drawing. */
  readonly faults?: readonly FaultAt[];
}

/** What is on each zone, the top layer first as one looks down on it, beside the pot with those zones filled. */
export function Glazed({ glazings, names, faults = [] }: Props) {
  const materials = useMaterials();
  if (glazings.length === 0 && !faults.some((fault) => fault.zone)) return null;
  const zones = [...new Set(glazings.map((g) => g.zone))];
  const layersOn = (zone: string | undefined) =>
    glazings.filter((g) => g.zone === zone).flatMap((g) => g.layers);
  return (
    <div class="glazed">
      <Pot filled={zones.filter((zone) => zone !== undefined)} faults={faults} size="large" />
      <dl class="zones">
        {zones.map((zone) => (
          <div key={zone ?? ''}>
            <dt>{zone ? materials.name('zone', zone) : words.zoneUnknown}</dt>
            {layersOn(zone)
              .toReversed()
              .map((layer, n) => (
                <dd key={n}>
                  {layerText(layer, names[layer.glaze] ?? materials.name('glaze', layer.glaze))}
                </dd>
              ))}
          </div>
        ))}
      </dl>
    </div>
  );
}
