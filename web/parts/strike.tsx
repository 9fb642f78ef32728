import { useState } from 'preact/hooks';
import { type Resting, record, type Sent } from '../api/orders.ts';
import { momentText } from '../words/numbers.ts';
import { piece as words } from '../words/piece.ts';
import { NoteField } from './field.tsx';
import { ProblemSaid } from './problem.tsx';

/** Strikes an entry out with a reason; where others rest on it they are listed first, and go only when that is said. */
export function Strike({ seq }: { readonly seq: number }) {
  const [why, setWhy] = useState('');
  const [sent, setSent] = useState<Sent>();
  const [busy, setBusy] = useState(false);
  const others = sent?.others ?? [];
  const strike = async (withResting: boolean) => {
    setBusy(true);
    const input = {
      seqs: [seq],
      ...(why.trim() ? { why: why.trim() } : {}),
      ...(withResting ? { withResting } : {}),
    };
    setSent(await record([{ command: 'entry.strike', input }], words.struckDone));
    setBusy(false);
  };
  return (
    <details class="strike no-paper">
      <summary>{words.strike}</summary>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void strike(others.length > 0);
        }}
      >
        <NoteField label={words.why} hint={words.whyHint} value={why} onValue={setWhy} optional />
        {sent?.problem && <ProblemSaid problem={sent.problem} />}
        {others.length > 0 && <RestingList others={others} />}
        <p class="buttons">
          <button type="submit" disabled={busy}>
            {others.length > 0 ? words.strikeAll(others.length) : words.strikeSubmit}
          </button>
        </p>
      </form>
    </details>
  );
}

const RestingList = ({ others }: { readonly others: readonly Resting[] }) => (
  <div class="resting">
    <p>{words.resting}</p>
    <ul>
      {others.map((other) => (
        <li key={other.seq}>
          <span class="soft">{momentText(other.happenedAt)}</span> {other.why}
        </li>
      ))}
    </ul>
  </div>
);
