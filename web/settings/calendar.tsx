import { useState } from 'preact/hooks';
import { Failed, type Problem, send } from '../api/client.ts';
import { useAddress } from '../api/use-report.ts';
import { announce } from '../app/announce.ts';
import { Shown } from '../parts/asked.tsx';
import { Field } from '../parts/field.tsx';
import { ProblemSaid } from '../parts/problem.tsx';
import { calendarWords as words } from '../words/telling.ts';

interface Address {
  readonly path: string | null;
}

/** The secret address of the calendar: made, copied, changed and shut here. */
export function Calendar() {
  const asked = useAddress<Address>('/api/calendar');
  const [problem, setProblem] = useState<Problem>();
  const post = async (what: 'new-address' | 'shut', said: string) => {
    try {
      await send<Address>(`/api/calendar/${what}`, {});
      setProblem(undefined);
      announce(said);
      asked.again();
    } catch (failure) {
      if (!(failure instanceof Failed)) throw failure;
      setProblem(failure.problem);
    }
  };
  return (
    <section class="part">
      <h2>{words.title}</h2>
      <p class="prose">{words.about}</p>
      {problem && <ProblemSaid problem={problem} />}
      <Shown of={asked}>
        {({ path }) =>
          path === null ? (
            <p class="buttons">
              <button type="button" onClick={() => post('new-address', words.changed)}>
                {words.make}
              </button>
            </p>
          ) : (
            <Open
              address={`${location.origin}${path}`}
              onChange={() => post('new-address', words.changed)}
              onShut={() => post('shut', words.shutDone)}
            />
          )
        }
      </Shown>
    </section>
  );
}

function Open({
  address,
  onChange,
  onShut,
}: {
  readonly address: string;
  readonly onChange: () => void;
  readonly onShut: () => void;
}) {
  const copy = async () => {
    await navigator.clipboard.writeText(address);
    announce(words.copied);
  };
  return (
    <>
      <Field label={words.address} hint={words.reach}>
        {(attributes) => (
          <input {...attributes} readOnly value={address} onFocus={(event) => event.currentTarget.select()} />
        )}
      </Field>
      <p class="buttons">
        {navigator.clipboard && (
          <button type="button" onClick={copy}>
            {words.copy}
          </button>
        )}
        <button type="button" onClick={onChange}>
          {words.change}
        </button>
        <button type="button" onClick={onShut}>
          {words.shut}
        </button>
      </p>
      <p class="hint">{words.changeHint}</p>
    </>
  );
}
