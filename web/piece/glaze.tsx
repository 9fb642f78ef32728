import './glaze.css';
import { useState } from 'preact/hooks';
import type { Problem } from '../api/client.ts';
import { record } from '../api/orders.ts';
import { useMaterials } from '../api/use-materials.ts';
import { Caution } from '../parts/caution.tsx';
import { ProblemSaid } from '../parts/problem.tsx';
import { useWhen } from '../parts/when.tsx';
import { ZonePick } from '../parts/zone-pick.tsx';
import { listText } from '../words/numbers.ts';
import { move as words } from '../words/piece.ts';
import { Glazed } from './glazed.tsx';
import { blankLayer, type LayerDraft, Layers, layersInput } from './layers.tsx';
import type { MoveProps } from './move.tsx';
import { countOf, SomeOf } from './move-form.tsx';

const glaze = words.glaze;

/**
 * Zone after zone on one screen: each is recorded by itself and can be undone,
 * and the next zone can be picked at once.
 */
export function Glaze({ piece }: MoveProps) {
  const materials = useMaterials();
  const [zone, setZone] = useState('outside');
  const [layers, setLayers] = useState<readonly LayerDraft[]>([blankLayer]);
  const [wiped, setWiped] = useState(false);
  const [some, setSome] = useState<number>();
  const [problem, setProblem] = useState<Problem>();
  const [busy, setBusy] = useState(false);
  const when = useWhen();
  const told = layersInput(layers);
  const count = Math.min(some ?? piece.count, piece.count);
  const filled = piece.glazings.map((g) => g.zone).filter((each) => each !== undefined);

  const submit = async (event: Event) => {
    event.preventDefault();
    setBusy(true);
    const input = {
      piece: piece.piece,
      ...(zone ? { zone } : {}),
      layers: told,
      ...(wiped ? { wipedBack: true } : {}),
      ...countOf(count, piece.count),
    };
    const names = listText(told.map((layer) => materials.name('glaze', layer.glaze)));
    const sentence = glaze.done(zone ? materials.name('zone', zone) : words.zoneNone, names);
    const sent = await record([{ command: 'glaze.apply', input, ...when.happenedAt }], sentence);
    setBusy(false);
    setProblem(sent.problem);
    if (sent.problem) return;
    setLayers([blankLayer]);
    setWiped(false);
    setSome(undefined);
  };

  if (materials.known && materials.of('glaze').length === 0)
    return (
      <p>
        {glaze.noGlazes} <a href="/materials">{glaze.add}</a>.
      </p>
    );
  return (
    <form onSubmit={submit}>
      <ZonePick
        legend={glaze.zone}
        hint={glaze.zoneHint}
        zone={zone}
        onZone={setZone}
        filled={filled}
        none={words.zoneNone}
      />
      <Layers layers={layers} onLayers={setLayers} />
      <label class="tick">
        <input type="checkbox" checked={wiped} onChange={(event) => setWiped(event.currentTarget.checked)} />
        {glaze.wiped}
      </label>
      <SomeOf of={piece.count} value={count} onValue={setSome} />
      {when.field}
      {problem && <ProblemSaid problem={problem} />}
      <p class="buttons">
        <button type="submit" class="main" disabled={busy || told.length === 0}>
          {glaze.submit}
        </button>
        <a class="button" href={`/ware/${encodeURIComponent(piece.piece)}`}>
          {glaze.finish}
        </a>
      </p>
      <section class="part">
        <h2>{glaze.on}</h2>
        {piece.glazings.length === 0 ? (
          <p class="soft">{glaze.none}</p>
        ) : (
          <Glazed glazings={piece.glazings} names={piece.glazeNames} />
        )}
      </section>
      <Caution lines={[glaze.caution]} />
    </form>
  );
}
