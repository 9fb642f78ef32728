import './import.css';
import { useRef, useState } from 'preact/hooks';
import { Failed, type Problem } from '../api/client.ts';
import { announce } from '../app/announce.ts';
import { Page } from '../app/page.tsx';
import { Field } from '../parts/field.tsx';
import { ProblemSaid } from '../parts/problem.tsx';
import { type FileWords, notebook, imports as words } from '../words/import.ts';
import { shell } from '../words/shell.ts';
import { Headings } from './headings.tsx';
import { type Mapping, runImport, type Summary } from './job.ts';
import { Added, BadRows, Preview } from './summary.tsx';

type Step =
  | { readonly at: 'choose' }
  | { readonly at: 'reading' | 'recording'; readonly done: number; readonly of: number }
  | { readonly at: 'preview' | 'done'; readonly summary: Summary };

export default function Import() {
  return <ImportFile of={notebook} />;
}

/** Choose a file, see row by row what would be recorded, then record it. */
export function ImportFile({
  of,
  back,
}: {
  readonly of: FileWords;
  readonly back?: { readonly href: string; readonly to: string };
}) {
  const [file, setFile] = useState<File>();
  const [mapping, setMapping] = useState<Mapping>();
  const [step, setStep] = useState<Step>({ at: 'choose' });
  const [problem, setProblem] = useState<Problem>();
  const [struckToo, setStruckToo] = useState(false);

  const run = async (chosen: File, dryRun: boolean, mapped?: Mapping, takeAgain = false) => {
    setStruckToo(takeAgain);
    const at = dryRun ? 'reading' : 'recording';
    setProblem(undefined);
    setStep({ at, done: 0, of: 0 });
    try {
      const asked = { kind: of.kind, file: chosen, dryRun, mapping: mapped, again: takeAgain };
      const summary = await runImport(asked, (done, all) => setStep({ at, done, of: all }));
      setStep({ at: dryRun ? 'preview' : 'done', summary });
      announce(dryRun ? wouldSay(summary, of) : words.done);
    } catch (failure) {
      if (!(failure instanceof Failed)) throw failure;
      setProblem(failure.problem);
      setStep({ at: 'choose' });
    }
  };
  const again = () => {
    setFile(undefined);
    setMapping(undefined);
    setStep({ at: 'choose' });
  };

  return (
    <Page title={of.title} back={back}>
      {step.at === 'choose' && (
        <Choose
          of={of}
          problem={problem}
          onFile={(chosen) => {
            setFile(chosen);
            setMapping(undefined);
            void run(chosen, true);
          }}
        />
      )}
      {(step.at === 'reading' || step.at === 'recording') && <Working {...step} />}
      {step.at === 'preview' && file && (
        <>
          <p class="lead">{wouldSay(step.summary, of)}</p>
          <BadRows bad={step.summary.bad} />
          <Headings
            columns={of.columns}
            summary={step.summary}
            onMapping={(mapped) => {
              setMapping(mapped);
              void run(file, true, mapped, struckToo);
            }}
          />
          <Added summary={step.summary} />
          {(step.summary.left ?? []).length > 0 && (
            <p class="buttons">
              <button type="button" onClick={() => run(file, true, mapping, true)}>
                {words.takeAgain((step.summary.left ?? []).length)}
              </button>
            </p>
          )}
          <Preview summary={step.summary} />
          <p class="buttons import-do">
            {step.summary.recorded + step.summary.struck > 0 && (
              <button type="button" class="main" onClick={() => run(file, false, mapping, struckToo)}>
                {words.record(step.summary.recorded)}
              </button>
            )}
            <button type="button" onClick={again}>
              {words.another}
            </button>
          </p>
        </>
      )}
      {step.at === 'done' && <Done of={of} summary={step.summary} again={again} />}
    </Page>
  );
}

function wouldSay(summary: Summary, of: FileWords): string {
  if (summary.recorded > 0) return words.would(summary.recorded, of.of(summary));
  return summary.repeated > 0 ? words.wouldNothing : words.wouldNone;
}

function Choose({
  of,
  problem,
  onFile,
}: {
  readonly of: FileWords;
  readonly problem?: Problem;
  readonly onFile: (file: File) => void;
}) {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <p class="lead">{of.lead}</p>
      {problem && <ProblemSaid problem={problem} />}
      <Field label={words.choose} hint={words.chooseHint}>
        {(attributes) => (
          <input
            {...attributes}
            ref={input}
            type="file"
            accept=".csv,.tsv,.txt,text/csv"
            onChange={(event) => {
              const chosen = event.currentTarget.files?.[0];
              if (chosen) onFile(chosen);
            }}
          />
        )}
      </Field>
      <section class="part">
        <details>
          <summary>{words.columns}</summary>
          <p class="prose">{of.columnsLead}</p>
          <ul class="columns">
            {Object.values(of.columns).map((name) => (
              <li key={name}>{name}</li>
            ))}
          </ul>
        </details>
      </section>
    </>
  );
}

function Working({
  at,
  done,
  of,
}: {
  readonly at: 'reading' | 'recording';
  readonly done: number;
  readonly of: number;
}) {
  const name = at === 'reading' ? words.reading : words.recording;
  return (
    <div class="part">
      <p role="status">{name}</p>
      <progress aria-label={name} max={of || 1} value={of ? done : undefined} />
      <p class="small soft">{of > 0 ? words.progress(done, of) : shell.waiting}</p>
    </div>
  );
}

const Done = ({
  of,
  summary,
  again,
}: {
  readonly of: FileWords;
  readonly summary: Summary;
  readonly again: () => void;
}) => (
  <>
    <p class="lead" role="status">
      <strong>{words.done}.</strong> {words.did(summary.recorded, of.of(summary))}
      {summary.repeated > 0 && ` ${words.repeated(summary.repeated)}`}
      {summary.struck > 0 && ` ${words.struckDid(summary.struck)}`}
    </p>
    <BadRows bad={summary.bad} />
    <Added summary={summary} />
    <p class="buttons">
      <a class="button main" href={of.seeAt}>
        {of.see}
      </a>
      <button type="button" onClick={again}>
        {words.another}
      </button>
    </p>
  </>
);
