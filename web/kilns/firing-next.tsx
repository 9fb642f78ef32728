import { useState } from 'preact/hooks';
import type { Problem } from '../api/client.ts';
import { record } from '../api/orders.ts';
import type { FiringMore } from '../api/studio.ts';
import { Caution } from '../parts/caution.tsx';
import { NoteField, TextField } from '../parts/field.tsx';
import { ProblemSaid } from '../parts/problem.tsx';
import { useWhen } from '../parts/when.tsx';
import { caution } from '../words/caution.ts';
import { firing as words } from '../words/kilns.ts';

type Firing = NonNullable<FiringMore['firing']>;

/** What this firing waits for, with the caution where the step is taken. */
export function FiringNext({ firing }: { readonly firing: Firing }) {
  if (firing.state === 'drawn' || firing.state === 'abandoned' || firing.state === 'none') return null;
  const at = `/kilns/${encodeURIComponent(firing.firing)}`;
  return (
    <section class="at-kiln no-paper" aria-label={words.next}>
      {firing.state === 'packed' && <Packed firing={firing} />}
      {firing.state === 'lit' && <Lit firing={firing} />}
      {firing.state === 'ended' && (
        <>
          <Caution lines={[caution.open]} />
          <p class="buttons">
            <a class="button main" href={`${at}/draw`}>
              {words.draw}
            </a>
          </p>
        </>
      )}
      {(firing.state === 'packed' || firing.state === 'lit') && <Abandon firing={firing} />}
    </section>
  );
}

/** Records one thing about the firing and says what went wrong, if it did. */
function useOrder(firing: Firing, happened: { readonly happenedAt?: string } = {}) {
  const [problem, setProblem] = useState<Problem>();
  const [busy, setBusy] = useState(false);
  const order = async (command: string, sentence: string, more: object = {}) => {
    setBusy(true);
    const sent = await record(
      [{ command, input: { firing: firing.firing, ...more }, ...happened }],
      sentence,
    );
    setBusy(false);
    setProblem(sent.problem);
  };
  return { order, busy, said: problem && <ProblemSaid problem={problem} /> };
}

function Packed({ firing }: { readonly firing: Firing }) {
  const when = useWhen();
  const { order, busy, said } = useOrder(firing, when.happenedAt);
  return (
    <>
      <Caution lines={[caution.light, caution.handbook]} />
      {when.field}
      {said}
      <p class="buttons">
        <button
          type="button"
          class="main"
          disabled={busy}
          onClick={() => order('firing.light', words.lightDone)}
        >
          {words.light}
        </button>
        <a class="button" href={`/kilns/pack?firing=${encodeURIComponent(firing.firing)}`}>
          {words.packMore}
        </a>
        <button type="button" disabled={busy} onClick={() => order('firing.unpack', words.unpackDone)}>
          {words.unpack}
        </button>
      </p>
    </>
  );
}

function Lit({ firing }: { readonly firing: Firing }) {
  const when = useWhen();
  const [top, setTop] = useState('');
  const { order, busy, said } = useOrder(firing, when.happenedAt);
  const degrees = Number(top);
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        void order('firing.end', words.endDone, degrees > 0 ? { top: degrees } : {});
      }}
    >
      <TextField
        label={words.endTop}
        type="number"
        value={top}
        onValue={setTop}
        input={{ min: 0, max: 1500, inputMode: 'numeric' }}
        optional
      />
      {when.field}
      {said}
      <p class="buttons">
        <button type="submit" class="main" disabled={busy}>
          {words.end}
        </button>
      </p>
    </form>
  );
}

function Abandon({ firing }: { readonly firing: Firing }) {
  const [why, setWhy] = useState('');
  const { order, busy, said } = useOrder(firing);
  return (
    <details>
      <summary>{words.abandon}</summary>
      <NoteField label={words.abandonWhy} value={why} onValue={setWhy} optional />
      {said}
      <p class="buttons">
        <button
          type="button"
          disabled={busy}
          onClick={() => order('firing.abandon', words.abandonDone, why.trim() ? { why: why.trim() } : {})}
        >
          {words.abandon}
        </button>
      </p>
    </details>
  );
}
