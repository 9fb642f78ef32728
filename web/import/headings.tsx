import { useState } from 'preact/hooks';
import { SelectField } from '../parts/field.tsx';
import { imports as words } from '../words/import.ts';
import type { Mapping, Summary } from './job.ts';

interface Props {
  /** Our columns as they read on the page. */
  readonly columns: Readonly<Record<string, string>>;
  readonly summary: Summary;
  readonly onMapping: (mapping: Mapping) => void;
}

/** What each heading of the file stands for; open where one was not understood. */
export function Headings({ columns, summary, onMapping }: Props) {
  const first = Object.fromEntries(summary.headings.map(({ heading, column }) => [heading, column ?? '']));
  const [mapping, setMapping] = useState<Mapping>(first);
  const options = Object.entries(columns).map(([value, label]) => ({ value, label }));
  const unknown = summary.headings.some(({ column }) => column === undefined);
  return (
    <section class="part">
      <details open={unknown}>
        <summary>{words.headings}</summary>
        <p class="prose">{words.headingsLead}</p>
        <form
          onSubmit={(event) => {
            event.preventDefault();
            onMapping(mapping);
          }}
        >
          <div class="side-by-side">
            {summary.headings.map(({ heading }, n) => (
              <SelectField
                key={n}
                label={heading || '–'}
                value={mapping[heading] ?? ''}
                onValue={(column) => setMapping({ ...mapping, [heading]: column })}
                options={options}
                none={words.leftOut}
              />
            ))}
          </div>
          <p class="buttons">
            <button type="submit">{words.mapAgain}</button>
          </p>
        </form>
      </details>
    </section>
  );
}
