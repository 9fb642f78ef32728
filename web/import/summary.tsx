import '../figures/figures.css';
import { imports as words } from '../words/import.ts';
import { countText } from '../words/numbers.ts';
import type { Bad, Summary } from './job.ts';

/** Every bad row with its line, its column, what was found and what was expected. */
export function BadRows({ bad }: { readonly bad: readonly Bad[] }) {
  if (bad.length === 0) return null;
  return (
    <section class="part">
      <h2>{words.bad(bad.length)}</h2>
      <p class="prose">{words.badLead}</p>
      <ol class="ledger bad-rows">
        {bad.map((row, n) => (
          <li key={n}>
            <div class="in-margin small">
              <strong>{words.line(row.line)}</strong>
            </div>
            <dl class="line facts small">
              <dt>{words.badColumn}</dt>
              <dd>{row.column || words.wholeRow}</dd>
              <dt>{words.badFound}</dt>
              <dd class="found">{row.found}</dd>
              <dt>{words.badExpected}</dt>
              <dd>{row.expected}</dd>
            </dl>
          </li>
        ))}
      </ol>
    </section>
  );
}

/** Clays, glazes, schedules, kilns and people that the file brings with it. */
export function Added({ summary }: { readonly summary: Summary }) {
  const kinds = Object.entries(summary.added).filter(([, names]) => names.length > 0);
  if (kinds.length === 0 && summary.notes.length === 0) return null;
  return (
    <section class="part">
      {kinds.length > 0 && (
        <>
          <h2>{words.added}</h2>
          <dl class="facts">
            {kinds.map(([kind, names]) => (
              <>
                <dt key={kind}>{words.addedOf[kind] ?? kind}</dt>
                <dd key={`${kind} names`}>{names.join(', ')}</dd>
              </>
            ))}
          </dl>
        </>
      )}
      {summary.notes.length > 0 && (
        <>
          <h3 class="how-read">{words.notes}</h3>
          <ul>
            {summary.notes.map((note) => (
              <li key={note}>{note}</li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

/** Row by row, what would be recorded. */
export function Preview({ summary }: { readonly summary: Summary }) {
  const preview = summary.preview ?? [];
  if (preview.length === 0) return null;
  return (
    <section class="part">
      <h2>{words.preview}</h2>
      {preview.length < summary.rows && (
        <p class="soft small">{words.previewSome(preview.length, summary.rows)}</p>
      )}
      <ol class="ledger">
        {preview.map((row) => (
          <li key={row.line}>
            <div class="in-margin small" title={words.line(row.line)}>
              <span class="unseen">{words.line(row.line)}</span>
              <span aria-hidden="true">{countText(row.line)}</span>
            </div>
            <div class="line">
              {row.sentences.length === 0 && <p class="soft">{words.already}</p>}
              {row.sentences.map((sentence, n) => (
                <p key={n}>{sentence}</p>
              ))}
              {!!row.struck && <p class="small">{words.struck(row.struck)}</p>}
            </div>
          </li>
        ))}
      </ol>
    </section>
  );
}
