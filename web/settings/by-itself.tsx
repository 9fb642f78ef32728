import { useEffect, useState } from 'preact/hooks';
import { ask, Failed, type Problem, send } from '../api/client.ts';
import { useAddress } from '../api/use-report.ts';
import { announce } from '../app/announce.ts';
import { Page } from '../app/page.tsx';
import { Shown } from '../parts/asked.tsx';
import { SelectField, TextField } from '../parts/field.tsx';
import { FoldOut } from '../parts/fold-out.tsx';
import { ProblemSaid } from '../parts/problem.tsx';
import { byItself as words } from '../words/by-itself.ts';
import { settings } from '../words/materials.ts';

interface Timed {
  readonly plugin: string;
  readonly job: string;
  readonly title: string;
  readonly about: string | null;
  readonly on: boolean;
  readonly every: number;
  readonly running: boolean;
  readonly takes: readonly {
    readonly name: string;
    readonly kind: 'address' | 'key';
    readonly label: string;
    readonly hint: string | null;
    readonly given: boolean;
    readonly shown: string | null;
  }[];
  readonly last: { readonly at: string; readonly sentence: string; readonly failed: boolean } | null;
  readonly failures: number;
  readonly since: string | null;
}

/** What is done on a timer: how it went, how often, and what it is given. */
export default function ByItself() {
  const asked = useAddress<{ timed: readonly Timed[] }>('/api/timed');
  return (
    <Page title={words.title} back={{ href: '/settings', to: settings.title }}>
      <p class="lead">{words.lead}</p>
      <Shown of={asked}>
        {({ timed }) =>
          timed.length === 0 ? (
            <p>{words.none}</p>
          ) : (
            timed.map((one) => <One key={`${one.plugin} ${one.job}`} timed={one} again={asked.again} />)
          )
        }
      </Shown>
    </Page>
  );
}

const addressOf = ({ plugin, job }: Timed): string =>
  `/api/timed/${encodeURIComponent(plugin)}/${encodeURIComponent(job)}`;

interface Props {
  readonly timed: Timed;
  readonly again: () => void;
}

function One({ timed, again }: Props) {
  const needs = timed.takes[0];
  const ready = !needs || needs.given;
  return (
    <section class="part">
      <h2>{timed.title}</h2>
      {timed.about && <p class="prose">{timed.about}</p>}
      {ready ? <Last timed={timed} /> : <p>{words.notSet}</p>}
      {ready && <Now timed={timed} again={again} />}
      <FoldOut summary={needs ? (ready ? words.change : words.set) : words.how}>
        {() => <Settings timed={timed} again={again} />}
      </FoldOut>
    </section>
  );
}

function Last({ timed: { last, on, every, failures, since } }: { readonly timed: Timed }) {
  return (
    <>
      <p role="status">
        {last ? (
          <>
            <span class="soft">{words.at(last.at)}: </span>
            {last.sentence}
          </>
        ) : (
          words.never
        )}
      </p>
      {failures > 1 && since && <p class="problem">{words.failedSo(failures, since)}</p>}
      <p class="small soft">{on ? words.every(every) : words.off}</p>
    </>
  );
}

/** Milliseconds between two looks at whether it is done. */
const LOOK = 700;

function Now({ timed, again }: Props) {
  const [work, setWork] = useState<string>();
  const [problem, setProblem] = useState<Problem>();
  useEffect(() => {
    if (!work) return;
    const look = setInterval(async () => {
      const { state } = await ask<{ state: string }>(`/api/jobs/${work}`);
      if (state === 'running') return;
      setWork(undefined);
      again();
    }, LOOK);
    return () => clearInterval(look);
  }, [work]);
  const begin = async () => {
    try {
      setProblem(undefined);
      setWork((await send<{ job: string }>(`${addressOf(timed)}/run`, {})).job);
    } catch (failure) {
      if (!(failure instanceof Failed)) throw failure;
      setProblem(failure.problem);
    }
  };
  return (
    <>
      {problem && <ProblemSaid problem={problem} />}
      <p class="buttons">
        <button type="button" disabled={work !== undefined} onClick={begin}>
          {work ? words.doing : words.now}
        </button>
      </p>
    </>
  );
}

const OFTEN = [5, 15, 30, 60, 120, 240, 720, 1440];

function Settings({ timed, again }: Props) {
  const [on, setOn] = useState(timed.on);
  const [every, setEvery] = useState(String(timed.every));
  const [typed, setTyped] = useState<Readonly<Record<string, string>>>({});
  const [problem, setProblem] = useState<Problem>();
  const post = async (body: object, said: string) => {
    try {
      await send(addressOf(timed), body);
      setProblem(undefined);
      setTyped({});
      announce(said);
      again();
    } catch (failure) {
      if (!(failure instanceof Failed)) throw failure;
      setProblem(failure.problem);
    }
  };
  const submit = (event: Event) => {
    event.preventDefault();
    const given = Object.fromEntries(Object.entries(typed).filter(([, value]) => value.trim()));
    void post({ on, every: Number(every), given }, words.saved);
  };
  const choices = [...new Set([...OFTEN, timed.every])].sort((a, b) => a - b);
  return (
    <form onSubmit={submit}>
      {timed.takes.map(({ name, kind, label, hint, given, shown }) => (
        <div key={name}>
          <TextField
            label={label}
            hint={[hint, given && words.leave].filter(Boolean).join(' ')}
            wrong={problem?.field === `given.${name}` ? problem.sentence : undefined}
            type={kind === 'key' ? 'password' : 'text'}
            value={typed[name] ?? ''}
            onValue={(value) => setTyped({ ...typed, [name]: value })}
            input={{
              autocomplete: 'off',
              spellcheck: false,
              ...(kind === 'address' ? { inputMode: 'url' } : {}),
            }}
          />
          {given && <p class="small">{shown ? words.is(label, shown) : words.given(label)}</p>}
          {given && (
            <p class="buttons">
              <button type="button" onClick={() => post({ given: { [name]: null } }, words.forgotten(label))}>
                {words.forget(label)}
              </button>
            </p>
          )}
        </div>
      ))}
      <SelectField
        label={words.how}
        value={every}
        onValue={setEvery}
        options={choices.map((minutes) => ({ value: String(minutes), label: words.every(minutes) }))}
      />
      <label class="tick">
        <input type="checkbox" checked={on} onChange={(event) => setOn(event.currentTarget.checked)} />{' '}
        {words.on}
      </label>
      {problem && !problem.field?.startsWith('given.') && <ProblemSaid problem={problem} />}
      <p class="buttons">
        <button type="submit" class="main">
          {words.submit}
        </button>
      </p>
    </form>
  );
}
