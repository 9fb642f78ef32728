import { useState } from 'preact/hooks';
import type { Entry } from '../../server/contract/entry.ts';
import { outboxHere } from '../api/offline.ts';
import { whenText } from '../app/waiting-line.tsx';
import { say } from '../log/say.ts';
import type { Unsent } from '../outbox/unsent.ts';
import { NoteField } from '../parts/field.tsx';
import { entryNames } from '../words/log.ts';
import { sentenceCase } from '../words/numbers.ts';
import { waitingWords as words } from '../words/waiting.ts';
import { Correct } from './correct.tsx';
import { newOrders } from './decisions.ts';

interface Props {
  readonly entry: Unsent;
  /** How many others wait with it. */
  readonly waitsWithIt: number;
}

/** One that the studio did not take: why, both sides where there are two, and what can be done. */
export function Decide({ entry, waitsWithIt }: Props) {
  const others = entry.refused?.meanwhile ?? [];
  const [busy, setBusy] = useState(false);
  const act = async (what: (here: NonNullable<Awaited<ReturnType<typeof outboxHere>>>) => Promise<void>) => {
    setBusy(true);
    const here = await outboxHere();
    if (here) await what(here);
    setBusy(false);
  };
  const contrary = entry.refused?.code === 'said-otherwise';
  const replace = (why: string, wrong: readonly Entry[]) =>
    act((here) => here.outbox.leaveOut(entry.id, why, newOrders(entry, wrong)));
  return (
    <li class="needs">
      <div class="in-margin small">{whenText(Date.parse(entry.clock))}</div>
      <div class="line">
        <p>
          <strong>{entry.sentence}</strong>
        </p>
        <p>{entry.refused?.sentence}</p>
        {others.length > 0 && (
          <BothSides
            entry={entry}
            others={others}
            // What is held against it is struck out as one; of what merely came before it, one at a time.
            onStrike={contrary || busy ? undefined : (other) => replace(words.mineIsRight, [other])}
          />
        )}
        {waitsWithIt > 0 && <p class="small soft">{words.holds(waitsWithIt)}</p>}
        <p class="buttons">
          {contrary && (
            <>
              <button
                type="button"
                disabled={busy}
                onClick={() => act((here) => here.outbox.leaveOut(entry.id, words.otherIsRight))}
              >
                {words.keepTheirs}
              </button>
              <button type="button" disabled={busy} onClick={() => replace(words.mineIsRight, others)}>
                {words.keepMine}
              </button>
              <button type="button" disabled={busy} onClick={() => replace(words.bothAreRight, [])}>
                {words.keepBoth}
              </button>
            </>
          )}
          {!contrary && (
            <button
              type="button"
              disabled={busy}
              onClick={() => act((here) => here.outbox.tryAgain(entry.id))}
            >
              {words.again}
            </button>
          )}
        </p>
        <Correct entry={entry} />
        <LeaveOut onLeaveOut={(why) => act((here) => here.outbox.leaveOut(entry.id, why))} disabled={busy} />
        <p class="small">
          <a href={entry.where}>{words.openScreen}</a>
        </p>
      </div>
    </li>
  );
}

interface Sides {
  readonly entry: Unsent;
  readonly others: readonly Entry[];
  readonly onStrike?: (other: Entry) => void;
}

function BothSides({ entry, others, onStrike }: Sides) {
  return (
    <dl class="sides">
      <div>
        <dt>{words.mine}</dt>
        <dd>
          {entry.sentence} <span class="small soft">{words.noted(whenText(Date.parse(entry.clock)))}</span>
        </dd>
      </div>
      <div>
        <dt>{words.theirs}</dt>
        {others.map((other) => (
          <dd key={other.seq}>
            {entryNames[other.name] ?? sentenceCase(other.name.replaceAll(/[.-]/g, ' '))}: {say(other)}{' '}
            <span class="small soft">{words.recordedAt(whenText(Date.parse(other.recordedAt)))}</span>
            {onStrike && (
              <button type="button" class="plain" onClick={() => onStrike(other)}>
                {words.strikeIt}
              </button>
            )}
          </dd>
        ))}
      </div>
    </dl>
  );
}

function LeaveOut({
  onLeaveOut,
  disabled,
}: {
  readonly onLeaveOut: (why: string) => void;
  readonly disabled: boolean;
}) {
  const [why, setWhy] = useState('');
  return (
    <details>
      <summary>{words.leaveOut}</summary>
      <NoteField label={words.leaveOutWhy} value={why} onValue={setWhy} />
      <p class="buttons">
        <button type="button" disabled={disabled || !why.trim()} onClick={() => onLeaveOut(why.trim())}>
          {words.leaveOut}
        </button>
      </p>
    </details>
  );
}
