import { useLocation } from 'preact-iso';
import type { Answer } from '../../server/contract/figures.ts';
import { queryOf, reportAddress } from '../api/client.ts';
import { type OfferedReport, usePlugins } from '../api/plugins.ts';
import { useAddress } from '../api/use-report.ts';
import { Page } from '../app/page.tsx';
import { Figure } from '../figures/figure.tsx';
import { Shown } from '../parts/asked.tsx';
import { KeepInMind } from '../parts/keep-in-mind.tsx';
import { figures } from '../words/figures.ts';
import { dayText } from '../words/numbers.ts';
import { review as words } from '../words/review.ts';
import { AskFor } from './ask-for.tsx';

interface Params {
  readonly plugin: string;
  readonly report: string;
}

/** Any report of any plugin: the answer in a sentence, then its figures, then what to keep in mind. */
export default function Report({ params }: { readonly params: Params }) {
  const { query, route } = useLocation();
  const { plugin, report } = params;
  const name = `${plugin}/${report}`;
  const offered = usePlugins().answer?.plugins.find((each) => each.id === plugin);
  const shape = offered?.reports.find((each) => each.report === report);
  const asked = useAddress<Answer>(reportAddress(name, query));
  const go = (next: Record<string, string | undefined>) => {
    const text = queryOf(next);
    route(`/review/${name}${text ? `?${text}` : ''}`, true);
  };
  const csv = reportAddress(name, { ...query, format: 'csv' });
  return (
    <Page title={shape?.title ?? words.title} back={{ href: '/review', to: words.title }}>
      {shape && <AskFor key={name} input={shape.input} query={query} go={go} />}
      <Shown of={asked}>
        {(answer) => (
          <div class="answer">
            <p class="answer-sentence" role="status">
              {answer.sentence}
            </p>
            {(answer.from || answer.to) && (
              <p class="soft small">
                {[answer.from && dayText(answer.from), answer.to && dayText(answer.to)]
                  .filter(Boolean)
                  .join(' – ')}
              </p>
            )}
            {answer.figures.map((figure, n) => (
              <Figure key={`${name} ${n}`} figure={figure} rows={answer.rows} />
            ))}
            {answer.rows.length === 0 && <p class="soft part">{figures.none}</p>}
            <KeepInMind notes={answer.notes} />
            <p class="buttons">
              <a class="button" href={csv} download>
                {words.csv}
              </a>
              <button type="button" onClick={() => print()}>
                {words.print}
              </button>
            </p>
          </div>
        )}
      </Shown>
      <Others plugin={plugin} report={report} reports={offered?.reports ?? []} query={query} />
    </Page>
  );
}

interface OthersProps extends Params {
  readonly reports: readonly OfferedReport[];
  readonly query: Readonly<Record<string, string>>;
}

/** The same time and owners, counted another way. */
function Others({ plugin, report, reports, query }: OthersProps) {
  const kept = queryOf({ from: query.from, to: query.to, owners: query.owners });
  const others = reports.filter((each) => each.report !== report && each.report.startsWith('by-'));
  if (others.length === 0) return null;
  return (
    <nav class="part no-paper" aria-label={words.others}>
      <h2>{words.others}</h2>
      <ul class="others">
        {others.map((each) => (
          <li key={each.report}>
            <a href={`/review/${plugin}/${each.report}${kept ? `?${kept}` : ''}`}>{each.title}</a>
          </li>
        ))}
      </ul>
    </nav>
  );
}
