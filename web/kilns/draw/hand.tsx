import { useState } from 'preact/hooks';
import type { Problem } from '../../api/client.ts';
import { passedOn, record, type Wish } from '../../api/orders.ts';
import type { FiringMore, PlaceRow } from '../../api/studio.ts';
import { type Materials, useMaterials } from '../../api/use-materials.ts';
import { GuideHere } from '../../guide/guide-here.tsx';
import { KeyGrid } from '../../parts/key-grid.tsx';
import { ProblemSaid } from '../../parts/problem.tsx';
import { draw as words } from '../../words/draw.ts';
import { Elsewhere } from './elsewhere.tsx';
import { begun, type Look, wish } from './look.ts';
import { nameOf } from './piece-in-hand.tsx';
import { Steps } from './steps.tsx';

export interface HandProps {
  readonly firing: NonNullable<FiringMore['firing']>;
  readonly row: PlaceRow;
  /** Another piece was looked over before it. */
  readonly follows: boolean;
  readonly onPassed: () => () => void;
  readonly onSent: () => void;
  readonly onLoad: () => void;
  readonly onFinish: () => void;
}

/** 'two seconds with pinholes on the inside' of every part, for the line with Undo. */
function saidOf(parts: Look['parts'], row: PlaceRow, materials: Materials): readonly string[] {
  return parts.map((part) => {
    const faults = (part.faults ?? []).map(({ kind, zone }) =>
      zone
        ? words.onZone(materials.name('fault', kind), materials.name('zone', zone))
        : materials.name('fault', kind),
    );
    const repair = part.repair && materials.name('repair', part.repair);
    return words.part(part.count, row.count, part.grade && words.graded[part.grade], faults, repair);
  });
}

/** What is known of the faults in hand, under the keys. */
function Guides({ look }: { readonly look: Look }) {
  const materials = useMaterials();
  const kinds = new Set([...look.seen.map(({ kind }) => kind), ...(look.kind ? [look.kind] : [])]);
  return [...kinds].map((kind) => <GuideHere key={kind} fault={kind} name={materials.name('fault', kind)} />);
}

/** The keys under the thumb: good is one tap, a fault a few, and the way back is always there. */
export function Hand(props: HandProps) {
  const { firing, row, follows, onPassed, onSent } = props;
  const materials = useMaterials();
  /** Every step so far; the last is the present one. None: good or not is still to be said. */
  const [steps, setSteps] = useState<readonly Look[]>([]);
  const [elsewhere, setElsewhere] = useState(false);
  const [problem, setProblem] = useState<Problem>();
  const [busy, setBusy] = useState(false);
  const bisque = firing.role === 'bisque';
  const what = nameOf(row);
  const look = steps.at(-1);

  const send = async (wishes: readonly Wish[], sentence: string) => {
    setBusy(true);
    const sent = await record(wishes, sentence);
    setProblem(sent.problem);
    if (sent.problem) setBusy(false);
    else onSent();
  };
  const lookedOver = (parts: Look['parts']) =>
    send([wish(row, firing.firing, parts)], words.recorded(what, saidOf(parts, row, materials)));
  const good = () => {
    if (bisque) return passedOn(words.looked(what), onPassed());
    const sentence = row.count === 1 ? words.goodDone(what) : words.goodAllDone(row.mark ?? what, row.count);
    return send([wish(row, firing.firing, [{ count: row.count, grade: 'first' }])], sentence);
  };
  const pick = (value: string) => {
    if (value === 'good') void good();
    else if (value === 'fault') setSteps([begun(row.count)]);
    else setElsewhere(true);
  };
  return (
    <>
      {problem && <ProblemSaid problem={problem} />}
      <div class="hand">
        {elsewhere ? (
          <Elsewhere {...props} disabled={busy} onSend={send} onBack={() => setElsewhere(false)} />
        ) : look ? (
          <Steps
            key={steps.length}
            look={look}
            bisque={bisque}
            disabled={busy}
            onLook={(next) => setSteps([...steps, next])}
            onParts={lookedOver}
            onBack={() => setSteps(steps.slice(0, -1))}
          />
        ) : (
          <KeyGrid
            legend={words.legend(row.count)}
            columns={2}
            keys={[
              {
                value: 'good',
                label: row.count === 1 ? words.good : words.goodAll(row.count),
                main: true,
                wide: true,
              },
              { value: 'fault', label: row.count === 1 ? words.fault : words.mixed },
              { value: 'other', label: words.other },
            ]}
            onPick={pick}
            disabled={busy}
            onceOnly
            takesFocus={follows}
          />
        )}
        {look && !elsewhere && <Guides look={look} />}
        {(look || elsewhere) && (
          <button
            type="button"
            class="plain step-back"
            disabled={busy}
            onClick={() => (elsewhere ? setElsewhere(false) : setSteps(steps.slice(0, -1)))}
          >
            {steps.length > 1 && !elsewhere ? words.back : words.backToPiece}
          </button>
        )}
      </div>
    </>
  );
}
