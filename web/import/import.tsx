import './import.css';
import { useRef, useState } from 'preact/hooks';
import { Failed, type Problem } from '../api/client.ts';
import { announce } from '../app/announce.ts';
import { Page } from '../app/page.tsx';
import { Field } from '../parts/field.tsx';
import { ProblemSaid } from '../parts/problem.tsx';
import { columnNames, imports as words } from '../words/import.ts';
import { shell } from '../words/shell.ts';
import { Headings } from './headings.tsx';
import { type Mapping, runImport, type Summary } from './job.ts';
import { Added, BadRows, Preview } from './summary.tsx';

type Step =
  | { readonly at: 'choose' }
  | { readonly at: 'reading' | 'recording'; readonly done: number; readonly of: number }
  | { readonly at: 'preview' | 'done'; readonly summary: Summary };

/** Choose a file, see row by row what would be recorded, then record it. */
export default function Import() {
  const [file, setFile] = useState<File>();
  const [mapping, setMapping] = useState<Mapping>();
  const [step, setStep] = useState<Step>({ at: 'choose' });
  const [problem, setProblem] = useState<Problem>();

  const run = async (chosen: File, dryRun: boolean, mapped?: Mapping) => {
    const at = dryRun ? 'reading' : 'recording';
    setProblem(undefined);
    setStep({ at, done: 0, of: 0 });
    try {
      const summary = await runImport({ file: chosen, dryRun, mapping: mapped }, (done, of) =>
        setStep({ at, done, of }),
      );
      setStep({ at: dryRun ? 'preview' : 'done', summary });
      announce(dryRun ? wouldSay(summary) : words.done);
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
    <Page title={words.title}>
      {step.at === 'choose' && (
        <Choose
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
          <p class="lead">{wouldSay(step.summary)}</p>
          <BadRows bad={step.summary.bad} />
          <Headings
            summary={step.summary}
            onMapping={(mapped) => {
              setMapping(mapped);
              void run(file, true, mapped);
            }}
          />
          <Added summary={step.summary} />
          <Preview summary={step.summary} />
          <p class="buttons import-do">
            {step.summary.recorded + step.summary.struck > 0 && (
              <button type="button" class="main" onClick={() => run(file, false, mapping)}>
                {words.record(step.summary.recorded)}
              </button>
            )}
            <button type="button" onClick={again}>
              {words.another}
            </button>
          </p>
        </>
      )}
      {step.at === 'done' && <Done summary={step.summary} again={again} />}
    </Page>
  );
}

function wouldSay(summary: Summary): string {
  if (summary.recorded > 0) return words.would(summary.recorded, summary.pieces, summary.firings);
  return summary.repeated > 0 ? words.wouldNothing : words.wouldNone;
}

function Choose({ problem, onFile }: { readonly problem?: Problem; readonly onFile: (file: File) => void }) {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <p class="lead">{words.lead}</p>
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
          <p class="prose">{words.columnsLead}</p>
          <ul class="columns">
            {Object.values(columnNames).map((name) => (
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

const Done = ({ summary, again }: { readonly summary: Summary; readonly again: () => void }) => (
  <>
    <p class="lead" role="status">
      <strong>{words.done}.</strong> {words.did(summary.recorded, summary.pieces, summary.firings)}
      {summary.repeated > 0 && ` ${words.repeated(summary.repeated)}`}
      {summary.struck > 0 && ` ${words.struckDid(summary.struck)}`}
    </p>
    <BadRows bad={summary.bad} />
    <Added summary={summary} />
    <p class="buttons">
      <a class="button main" href="/ware">
        {words.seeWare}
      </a>
      <button type="button" onClick={again}>
        {words.another}
      </button>
    </p>
  </>
);
