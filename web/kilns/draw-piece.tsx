import { useEffect, useRef, useState } from 'preact/hooks';
import type { Problem } from '../api/client.ts';
import { record } from '../api/orders.ts';
import type { FiringMore, PlaceRow } from '../api/studio.ts';
import { useMaterials } from '../api/use-materials.ts';
import { announce } from '../app/announce.ts';
import { Pot } from '../drawings/pot.tsx';
import { Mark } from '../parts/mark.tsx';
import { ProblemSaid } from '../parts/problem.tsx';
import { layerText } from '../piece/glazed.tsx';
import { titleOf } from '../ware/ware-list.tsx';
import { draw as words } from '../words/kilns.ts';
import { piece as pieceWords } from '../words/piece.ts';
import { DrawFault } from './draw-fault.tsx';

export interface DrawPieceProps {
  readonly firing: NonNullable<FiringMore['firing']>;
  readonly row: PlaceRow;
  /** Another piece was looked over before it. */
  readonly follows: boolean;
  readonly onPassed: () => void;
  readonly onSent: () => void;
  /** Back to the piece before, where nothing was recorded of it. */
  readonly onBack?: () => void;
}

/** One piece in the hand: its code large, what is on it; good is one tap. */
export function DrawPiece({ firing, row, follows, onPassed, onSent, onBack }: DrawPieceProps) {
  const [faulty, setFaulty] = useState(false);
  const [problem, setProblem] = useState<Problem>();
  const [busy, setBusy] = useState(false);
  const code = useRef<HTMLHeadingElement>(null);
  const bisque = firing.role === 'bisque';
  const what = `${row.mark ?? ''} ${titleOf(row)}`.trim();
  // The key that was pressed for the piece before is gone: the focus goes on to the piece in the hand.
  useEffect(() => {
    const held = document.activeElement;
    if (follows && (held === document.body || held?.tagName === 'H1'))
      code.current?.focus({ preventScroll: true });
  }, [follows]);
  useEffect(() => {
    announce(`${what}, ${words.shelf(row.shelf)}`);
  }, [what, row.shelf]);

  const good = async () => {
    if (bisque) {
      announce(words.looked(what));
      return onPassed();
    }
    setBusy(true);
    const input = { piece: row.piece, first: row.count, firing: firing.firing };
    const sentence = row.count === 1 ? words.goodDone(what) : words.goodAllDone(row.mark ?? what, row.count);
    const sent = await record([{ command: 'piece.grade', input }], sentence);
    setProblem(sent.problem);
    if (sent.problem) setBusy(false);
    else onSent();
  };

  return (
    <>
      <section class="in-hand" aria-label={what}>
        <h2 ref={code} tabIndex={-1}>
          <Mark mark={row.mark} />
        </h2>
        <p class="form">{titleOf(row)}</p>
        <p class="soft">{[words.shelf(row.shelf), row.position, row.clayName].filter(Boolean).join(' · ')}</p>
        <OnIt row={row} />
        <Before row={row} />
      </section>
      {problem && <ProblemSaid problem={problem} />}
      {faulty ? (
        <DrawFault firing={firing} row={row} what={what} onSent={onSent} onBack={() => setFaulty(false)} />
      ) : (
        <div class="hand">
          <button type="button" class="main" disabled={busy} onClick={good}>
            {row.count === 1 ? words.good : words.goodAll(row.count)}
          </button>
          <button type="button" disabled={busy} onClick={() => setFaulty(true)}>
            {row.count === 1 ? words.fault : words.mixed}
          </button>
          {onBack && (
            <button type="button" class="plain" onClick={onBack}>
              {words.back}
            </button>
          )}
        </div>
      )}
    </>
  );
}

function OnIt({ row }: { readonly row: PlaceRow }) {
  const materials = useMaterials();
  const zones = row.glazings.map((g) => g.zone).filter((zone) => zone !== null);
  if (row.glazings.length === 0) return <p class="soft">{words.noGlaze}</p>;
  return (
    <div class="on-it">
      <Pot filled={zones} />
      <dl>
        {row.glazings.map((glazing, n) => (
          <div key={n}>
            <dt>{glazing.zone ? materials.name('zone', glazing.zone) : pieceWords.zoneUnknown}</dt>
            <dd>{glazing.layers.map((layer) => layerText(layer, layer.name)).join(words.over)}</dd>
          </div>
        ))}
      </dl>
    </div>
  );
}

function Before({ row }: { readonly row: PlaceRow }) {
  const materials = useMaterials();
  const said = [
    ...row.before.faults.map((fault) => materials.name('fault', fault.kind)),
    ...row.before.repairs.map((method) => materials.name('repair', method)),
  ];
  return said.length === 0 ? null : (
    <p>
      <strong>{words.before}:</strong> {said.join(', ')}
    </p>
  );
}
