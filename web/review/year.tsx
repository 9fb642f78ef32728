import { KeepInMind } from '../parts/keep-in-mind.tsx';
import './review.css';
import './year.css';
import { useLocation } from 'preact-iso';
import { queryOf, reportAddress } from '../api/client.ts';
import { useAddress } from '../api/use-report.ts';
import { Page } from '../app/page.tsx';
import { Shown } from '../parts/asked.tsx';
import { Empty } from '../parts/empty.tsx';
import { SelectField, TextField } from '../parts/field.tsx';
import { PaperLink } from '../parts/paper-link.tsx';
import { review } from '../words/review.ts';
import { year as words } from '../words/year.ts';
import { dayBefore } from './period.ts';
import { askedYear, YEAR, type YearAnswer, type YearMore } from './year-answer.ts';
import { BestGlazes, CameOut, Changed, Changes, Mended, WorstGlazes } from './year-parts.tsx';

/** The year on a page: what to change first, then what that rests on. */
export default function Year() {
  const { query } = useLocation();
  const asked = useAddress<YearAnswer>(reportAddress(YEAR, query));
  return (
    <Page title={words.title} back={{ href: '/review', to: review.title }}>
      <Shown of={asked}>
        {(answer) => (
          <>
            <WhichYear more={answer.more} query={query} />
            {answer.more.pieces === 0 ? (
              <Empty what={answer.sentence}>{words.none}</Empty>
            ) : (
              <YearSaid answer={answer} query={query} />
            )}
          </>
        )}
      </Shown>
    </Page>
  );
}

type Query = Readonly<Record<string, string>>;

function YearSaid({ answer, query }: { readonly answer: YearAnswer; readonly query: Query }) {
  const { more } = answer;
  return (
    <div class="answer the-year">
      <p class="answer-sentence" role="status">
        {more.headline}
      </p>
      <p class="prose">{more.compared}</p>
      <Changes advice={more.advice} />
      <CameOut answer={answer} />
      <WorstGlazes answer={answer} />
      <BestGlazes answer={answer} />
      <Mended answer={answer} />
      <Changed answer={answer} />
      <KeepInMind notes={answer.notes} small />
      <p class="buttons">
        {(['A4', 'Letter'] as const).map((paper) => (
          <PaperLink
            key={paper}
            paper={YEAR}
            params={{ from: query.from, to: query.to, owners: query.owners, paper }}
            title={words.pdf(paper)}
          />
        ))}
        <a class="button" href={reportAddress(YEAR, { ...query, format: 'csv' })} download>
          {review.csv}
        </a>
        <button type="button" onClick={() => print()}>
          {review.print}
        </button>
      </p>
    </div>
  );
}

const OWN = 'own';

/** The studio's years, newest first; other days by two fields. */
function WhichYear({ more, query }: { readonly more: YearMore; readonly query: Query }) {
  const { route } = useLocation();
  const go = (next: Record<string, string | undefined>) => {
    const text = queryOf({ ...query, ...next });
    route(`/review/${YEAR}${text ? `?${text}` : ''}`, true);
  };
  const { year, years } = more;
  const known = years.some(({ from, to }) => from === year.from && to === year.to);
  const options = [
    ...years.map((each, n) => ({ value: each.from, label: n === 0 ? words.present(each.name) : each.name })),
    { value: OWN, label: known ? words.own : words.days(year.from, year.to) },
  ];
  const pick = (value: string) => {
    const chosen = years.find(({ from }) => from === value);
    // Own days begin with those in sight, less a day, so that they are no studio year.
    go(chosen ? askedYear(chosen, years) : { from: year.from, to: dayBefore(year.until) });
  };
  return (
    <form class="filters side-by-side" onSubmit={(event) => event.preventDefault()}>
      <SelectField label={words.which} value={known ? year.from : OWN} onValue={pick} options={options} />
      {!known && (
        <>
          <TextField
            label={review.from}
            type="date"
            value={year.from}
            onValue={(from) => from && go({ from, to: year.to })}
          />
          <TextField
            label={review.to}
            type="date"
            value={year.to}
            onValue={(to) => to && go({ from: year.from, to })}
          />
        </>
      )}
    </form>
  );
}
