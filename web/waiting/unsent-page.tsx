import './waiting.css';
import { useEffect, useState } from 'preact/hooks';
import { outboxHere } from '../api/offline.ts';
import { keptAnew, waitingHere } from '../api/reach.ts';
import { Page } from '../app/page.tsx';
import { whenText } from '../app/waiting-line.tsx';
import type { Day, HeldMarks } from '../device/database.ts';
import { stuckIn, type Unsent } from '../outbox/unsent.ts';
import { Empty } from '../parts/empty.tsx';
import { shell } from '../words/shell.ts';
import { stands } from '../words/stands.ts';
import { waitingWords as words } from '../words/waiting.ts';
import { Decide } from './decide.tsx';

/** All that was noted on this device and is not in the studio's record, and what is kept for work without it. */
export default function UnsentPage() {
  const [all, setAll] = useState<readonly Unsent[]>();
  const now = waitingHere.value;
  useEffect(() => {
    void outboxHere().then(async (here) => setAll(here ? await here.store.all() : []));
  }, [now]);
  const { held } = stuckIn(all ?? []);
  const refused = (all ?? []).filter((it) => it.state === 'refused');
  const waiting = (all ?? []).filter((it) => it.state === 'waiting');
  const leftOut = (all ?? []).filter((it) => it.state === 'left-out');
  return (
    <Page title={stands.title} back={{ href: '/', to: shell.today }}>
      {all && refused.length + waiting.length === 0 && (
        <Empty what={words.nothing}>{words.nothingMore}</Empty>
      )}
      {refused.length > 0 && (
        <section class="part">
          <h2>{words.decide}</h2>
          <ul class="ledger">
            {refused.map((entry) => (
              <Decide key={entry.id} entry={entry} waitsWithIt={restingOn(entry.id, all ?? [])} />
            ))}
          </ul>
        </section>
      )}
      {waiting.length > 0 && (
        <section class="part">
          <h2>{stands.entries(waiting.length)}</h2>
          <p class="lead">{words.lead}</p>
          <ol class="ledger">
            {waiting.map((entry) => (
              <li key={entry.id}>
                <div class="in-margin small">{whenText(Date.parse(entry.clock))}</div>
                <div class="line">
                  <p>{entry.sentence}</p>
                  {held.has(entry.id) && <p class="small soft">{words.withAnother}</p>}
                </div>
              </li>
            ))}
          </ol>
          <p class="buttons">
            <button
              type="button"
              class="main"
              onClick={() => void outboxHere().then((h) => h?.outbox.send())}
            >
              {words.sendNow}
            </button>
          </p>
        </section>
      )}
      {leftOut.length > 0 && <LeftOut entries={leftOut} />}
      <KeptHere />
    </Page>
  );
}

function restingOn(id: string, all: readonly Unsent[]): number {
  const resting = new Set([id]);
  for (const it of all)
    if (it.state === 'waiting' && it.needs.some((need) => resting.has(need))) resting.add(it.id);
  return resting.size - 1;
}

function LeftOut({ entries }: { readonly entries: readonly Unsent[] }) {
  return (
    <section class="part">
      <h2>{words.leftOut}</h2>
      <p class="lead">{words.leftOutLead}</p>
      <ul class="ledger">
        {entries.map((entry) => (
          <li key={entry.id}>
            <div class="in-margin small">{whenText(Date.parse(entry.clock))}</div>
            <div class="line">
              <p>{entry.sentence}</p>
              {entry.refused?.sentence && <p class="small soft">{entry.refused.sentence}</p>}
              <p class="small">{words.becauseOf(entry.why ?? '')}</p>
            </div>
          </li>
        ))}
      </ul>
    </section>
  );
}

interface Kept {
  readonly day?: Day;
  readonly marks: number;
  readonly stays: boolean;
}

function KeptHere() {
  const [kept, setKept] = useState<Kept>();
  const anew = keptAnew.value;
  useEffect(() => {
    void outboxHere().then(async (here) => {
      if (!here) return;
      const marks = (await here.kept.fact<HeldMarks>('marks'))?.free.length ?? 0;
      const stays = (await navigator.storage?.persisted?.()) ?? false;
      setKept({ day: await here.kept.day(), marks, stays });
    });
  }, [anew]);
  if (!kept) return null;
  const count = (prefix: string) => kept.day!.streams.filter((stream) => stream.startsWith(prefix)).length;
  return (
    <section class="part">
      <h2>{kept.day ? words.keptFor(whenText(kept.day.at)) : stands.title}</h2>
      <p>{kept.day ? words.keptWhat(count('firing:'), count('piece:')) : words.keptNone}</p>
      {kept.marks > 0 && <p>{words.marksLeft(kept.marks)}</p>}
      <p>{kept.stays ? words.stays : words.mayGo}</p>
    </section>
  );
}
