import './story.css';
import { noteText, type StoryLine } from '../api/studio.ts';
import { ToGuide } from '../guide/to-guide.tsx';
import { dayText, shortDayText, timeText, today, yearOf } from '../words/numbers.ts';
import { piece as words } from '../words/piece.ts';
import { Strike } from './strike.tsx';

interface Props {
  readonly lines: readonly StoryLine[];
  /** The past is looked at: nothing can be struck out from here. */
  readonly past?: boolean;
}

/** What happened, newest first: the day in the margin, the year where it changes. */
export const Story = ({ lines, past = false }: Props) => (
  <ol class="ledger story">
    {lines.map((line, n) => (
      <Told
        key={line.seq}
        past={past}
        line={line}
        newYear={yearOf(line.happenedAt) !== (n > 0 ? yearOf(lines[n - 1]!.happenedAt) : yearOf(today()))}
      />
    ))}
  </ol>
);

const sameDay = (line: StoryLine): boolean => dayText(line.happenedAt) === dayText(line.recordedAt);

function Told({
  line,
  newYear,
  past,
}: {
  readonly line: StoryLine;
  readonly newYear: boolean;
  readonly past: boolean;
}) {
  const struck = line.struckBy !== null;
  const note = noteText(line.note);
  const why = noteText(line.struckWhy);
  return (
    <li id={`entry-${line.seq}`}>
      <div class="in-margin small">
        {newYear && <strong class="year">{yearOf(line.happenedAt)}</strong>}
        <time dateTime={line.happenedAt}>{shortDayText(line.happenedAt)}</time>
        <span class="soft hour">{timeText(line.happenedAt)}</span>
      </div>
      <div class="line">
        <p class={struck ? 'struck' : undefined}>{line.sentence}</p>
        {note && <p class={struck ? 'struck' : 'noted'}>{note}</p>}
        {struck && <p class="small">{why ? words.struckBecause(why) : words.struck}</p>}
        {line.fault && !struck && <ToGuide fault={line.fault} />}
        {!sameDay(line) && <p class="small soft">{words.recordedOn(line.recordedAt)}</p>}
        {!struck && !past && <Strike seq={line.seq} />}
      </div>
    </li>
  );
}
