/** How this device stands, above every screen: what waits, what needs the user, and how old what is shown is. */
import './waiting-line.css';
import { asOf, newer, reach, trouble, waitingHere } from '../api/reach.ts';
import { momentText, timeText, today } from '../words/numbers.ts';
import { stands as words } from '../words/stands.ts';

/** '14:10' of today, day and time of an earlier day. */
export function whenText(at: number): string {
  const text = new Date(at).toISOString();
  return today(new Date(at)) === today() ? timeText(text) : momentText(text);
}

function awayText(noted: boolean): string {
  if (asOf.value === undefined) return words.away;
  return noted ? words.awayNoted(whenText(asOf.value)) : words.awayAsOf(whenText(asOf.value));
}

export function WaitingLine() {
  const { waiting, refused, oldest } = waitingHere.value;
  const { keeps, full, gone, putBack, dayOf } = trouble.value;
  const lines = [
    reach.value === 'away' && awayText(waiting > 0),
    reach.value === 'signed-out' && words.signedOut,
    !keeps && words.keepsNothing,
    full && words.fullLine,
    dayOf && (dayOf === 'none' ? words.dayNone : words.dayOf(whenText(dayOf))),
    putBack && words.putBack(putBack),
    gone && words.gone(gone.count, whenText(gone.oldest)),
  ].filter((line) => typeof line === 'string');
  if (lines.length === 0 && waiting + refused === 0 && !newer.value) return null;
  return (
    <aside class="stands no-paper" aria-label={words.title}>
      {lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
      {(gone || putBack) && (
        <button
          type="button"
          class="plain"
          onClick={() => void import('../outbox/cleared.ts').then((it) => it.seenCleared())}
        >
          {words.goneSeen}
        </button>
      )}
      {waiting + refused > 0 && (
        <p>
          <a href="/unsent">
            {[refused > 0 && words.needsYou(refused), waiting > 0 && words.entries(waiting)]
              .filter(Boolean)
              .join(' · ')}
          </a>
          {oldest !== undefined && `, ${words.oldest(whenText(oldest))}`}
        </p>
      )}
      {newer.value && (
        <p>
          {words.newer}{' '}
          <button type="button" class="plain" onClick={newer.value}>
            {words.useNewer}
          </button>
        </p>
      )}
    </aside>
  );
}
