import './templates.css';
import { useState } from 'preact/hooks';
import { paperAddress } from '../api/client.ts';
import { useReport } from '../api/use-report.ts';
import { Page } from '../app/page.tsx';
import { Shown } from '../parts/asked.tsx';
import { templates as words } from '../words/templates.ts';
import { Make, PAPERS } from './make.tsx';

interface Row {
  readonly template: string;
  readonly name: string;
  readonly version: number;
  readonly downloads: number;
  readonly printed: number;
}
interface Kept {
  readonly template: string;
  readonly name: string;
  readonly spec: Record<string, unknown>;
  readonly clay?: string;
}

/** Templates that are kept, and the making of new ones. */
export default function Templates() {
  const asked = useReport<Row>('template-sheets/templates');
  const [changing, setChanging] = useState<string>();
  const [turn, next] = useState(0);
  const kept = useReport<unknown, Kept>(changing && 'template-sheets/template', { template: changing });
  const changed = changing && kept.answer?.more.template === changing ? kept.answer.more : undefined;
  const done = () => {
    setChanging(undefined);
    next(turn + 1);
  };
  return (
    <Page title={words.title}>
      <p class="lead">{words.lead}</p>
      <Shown of={asked}>
        {(answer) =>
          answer.rows.length === 0 ? (
            <p class="soft">{words.empty}</p>
          ) : (
            <section class="part">
              <h2>{words.kept}</h2>
              <ul class="ledger plain-ledger">
                {answer.rows.map((row) => (
                  <Line key={row.template} row={row} onChange={() => setChanging(row.template)} />
                ))}
              </ul>
            </section>
          )
        }
      </Shown>
      <section class="part no-paper">
        <h2>{changed ? words.change(changed.name) : words.make}</h2>
        <Make key={`${changed?.template} ${turn}`} kept={changed} onKept={done} />
      </section>
    </Page>
  );
}

function Line({ row, onChange }: { readonly row: Row; readonly onChange: () => void }) {
  const [paper, setPaper] = useState<string>('A4');
  return (
    <li>
      <div class="line">
        <strong>{row.name}</strong>
        <span class="soft small">
          {words.version(row.version)} · {words.gone(row.downloads, row.printed)}
        </span>
      </div>
      <p class="buttons">
        <select
          aria-label={`${words.paper}: ${row.name}`}
          value={paper}
          onChange={(event) => setPaper(event.currentTarget.value)}
        >
          {PAPERS.map((each) => (
            <option key={each}>{each}</option>
          ))}
        </select>
        <a
          class="button"
          href={paperAddress('template-sheets/kept', { template: row.template, paper })}
          target="_blank"
          rel="noreferrer"
          aria-label={words.pdfOf(row.name, paper)}
        >
          {words.pdf}
        </a>
        <button type="button" onClick={onChange}>
          {words.changeIt}
        </button>
      </p>
    </li>
  );
}
