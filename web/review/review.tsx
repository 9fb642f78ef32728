import './review.css';
import { type OfferedPlugin, reviewed, usePlugins } from '../api/plugins.ts';
import { Page } from '../app/page.tsx';
import { Empty } from '../parts/empty.tsx';
import { ProblemSaid } from '../parts/problem.tsx';
import { review as words } from '../words/review.ts';
import { shell } from '../words/shell.ts';
import { offersYear, YearSoFar } from './year-so-far.tsx';

/** The reports of every plugin. */
export default function Review() {
  const { answer, problem, again } = usePlugins();
  const plugins = answer && reviewed(answer.plugins);
  return (
    <Page title={words.title}>
      <p class="lead">{words.lead}</p>
      {plugins?.some(offersYear) && <YearSoFar />}
      {problem && <ProblemSaid problem={problem} reading again={again} />}
      {!plugins && !problem && <p class="waiting">{shell.waiting}</p>}
      {plugins?.length === 0 && <Empty what={words.empty} />}
      {plugins?.map((plugin) => (
        <ReportsOf key={plugin.id} plugin={plugin} />
      ))}
    </Page>
  );
}

const ReportsOf = ({ plugin }: { readonly plugin: OfferedPlugin }) => (
  <section class="part">
    <h2 class="about">{plugin.about}</h2>
    <ul class="ledger plain-ledger answers-of">
      {plugin.reports.map((report) => (
        <li key={report.report} class="whole">
          <div class="line">
            <a class="reach" href={`/review/${plugin.id}/${report.report}`}>
              {report.title}
            </a>
          </div>
        </li>
      ))}
    </ul>
  </section>
);
