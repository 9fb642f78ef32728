import './year.css';
import { queryOf, reportAddress } from '../api/client.ts';
import { type OfferedPlugin, useOffered } from '../api/plugins.ts';
import { useAddress } from '../api/use-report.ts';
import { GUIDE } from '../guide/guide-answer.ts';
import { Shown } from '../parts/asked.tsx';
import { review as words } from '../words/review.ts';
import { year as yearWords } from '../words/year.ts';
import { YEAR, type YearAnswer } from './year-answer.ts';

export const offersYear = ({ id, reports }: OfferedPlugin): boolean =>
  reports.some(({ report }) => `${id}/${report}` === YEAR);

/** What one comes to Review for most: which glaze it was this year, and what to change. */
export function YearSoFar() {
  const asked = useAddress<YearAnswer>(reportAddress(YEAR));
  const guide = useOffered(GUIDE);
  return (
    <section class="part year-so-far">
      <Shown of={asked}>
        {({ more: { year, pieces, headline, worst, advice } }) => (
          <>
            <h2>{words.yearNow(year.name)}</h2>
            {pieces === 0 ? (
              <p>{words.yearNothing}</p>
            ) : (
              <>
                <p class="answer-sentence">{worst}</p>
                <p class="prose soft">{headline}</p>
                {advice.length > 0 && (
                  <div class="to-change">
                    <h3>{yearWords.change}</h3>
                    {advice.map((each) => (
                      <p key={each}>{each}</p>
                    ))}
                  </div>
                )}
              </>
            )}
            <p class="buttons">
              <a class="button main" href={`/review/${YEAR}`}>
                {words.yearPage}
              </a>
              <a
                class="button"
                href={`/review/seconds-tally/worst-glaze?${queryOf({ from: year.from, to: year.to })}`}
              >
                {words.worstPage}
              </a>
              {guide && (
                <a class="button" href={`/review/${GUIDE}`}>
                  {words.faultGuide}
                </a>
              )}
            </p>
          </>
        )}
      </Shown>
    </section>
  );
}
