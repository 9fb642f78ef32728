import { useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import type { Problem } from '../../api/client.ts';
import { record } from '../../api/orders.ts';
import type { FiringMore, PlaceRow } from '../../api/studio.ts';
import { CONES } from '../../materials/cones.ts';
import { NoteField, SelectField } from '../../parts/field.tsx';
import { ProblemSaid } from '../../parts/problem.tsx';
import { useWhen } from '../../parts/when.tsx';
import { textOf } from '../../piece/move-form.tsx';
import { draw as words } from '../../words/draw.ts';

import { keepPassed } from './passed.ts';

const BENDS = ['standing', 'leaning', 'down', 'flat'] as const;

interface Seen {
  readonly cone: string;
  readonly bend: string;
}

interface Props {
  readonly firing: NonNullable<FiringMore['firing']>;
  readonly rows: readonly PlaceRow[];
  /** Pieces not looked over. */
  readonly left: number;
  readonly onBack?: () => void;
}

/** The kiln is empty: the witness cones seen on each shelf, and that it was drawn. */
export function Finish({ firing, rows, left, onBack }: Props) {
  const { route } = useLocation();
  const [cones, setCones] = useState<Readonly<Record<number, Seen>>>({});
  const [note, setNote] = useState('');
  const [problem, setProblem] = useState<Problem>();
  const when = useWhen();
  const shelves = [...new Set(rows.map((row) => row.shelf))]
    .filter((shelf) => shelf !== null)
    .sort((a, b) => a - b);
  const seen = (shelf: number): Seen => cones[shelf] ?? { cone: '', bend: 'down' };
  const set = (shelf: number, change: Partial<Seen>) =>
    setCones({ ...cones, [shelf]: { ...seen(shelf), ...change } });

  const submit = async (event: Event) => {
    event.preventDefault();
    const noted = shelves.filter((shelf) => seen(shelf).cone).map((shelf) => ({ shelf, ...seen(shelf) }));
    const input = { firing: firing.firing, ...(noted.length > 0 ? { cones: noted } : {}), ...textOf(note) };
    const where = `/kilns/${encodeURIComponent(firing.firing)}`;
    const sent = await record([{ command: 'firing.draw', input, ...when.happenedAt }], words.done, where);
    setProblem(sent.problem);
    if (sent.problem) return;
    keepPassed(firing.firing, []);
    route(where);
  };

  return (
    <form onSubmit={submit}>
      <p role="status">{left === 0 ? words.everything : words.finishHint(left)}</p>
      {shelves.length > 0 && (
        <fieldset>
          <legend>{words.cones}</legend>
          <p class="hint">{words.conesHint}</p>
          {shelves.map((shelf) => (
            <div key={shelf} class="side-by-side">
              <SelectField
                label={words.coneOn(shelf)}
                value={seen(shelf).cone}
                onValue={(cone) => set(shelf, { cone })}
                options={CONES.map((cone) => ({ value: cone, label: cone }))}
                none={words.none}
              />
              {seen(shelf).cone && (
                <SelectField
                  label={words.bend(shelf)}
                  value={seen(shelf).bend}
                  onValue={(bend) => set(shelf, { bend })}
                  options={BENDS.map((bend) => ({ value: bend, label: words[bend] }))}
                />
              )}
            </div>
          ))}
        </fieldset>
      )}
      <NoteField label={words.note} value={note} onValue={setNote} optional />
      {when.field}
      {problem && <ProblemSaid problem={problem} />}
      <p class="buttons">
        <button type="submit" class="main">
          {words.finish}
        </button>
        {onBack && (
          <button type="button" onClick={onBack}>
            {words.back}
          </button>
        )}
      </p>
    </form>
  );
}
