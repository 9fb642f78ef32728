import { useLocation } from 'preact-iso';
import type { Entry } from '../../server/contract/entry.ts';
import { queryOf } from '../api/client.ts';
import { useAddress } from '../api/use-report.ts';
import { Page } from '../app/page.tsx';
import { Empty } from '../parts/empty.tsx';
import { ProblemSaid } from '../parts/problem.tsx';
import { Strike } from '../parts/strike.tsx';
import '../parts/story.css';
import { entryNames, log as words } from '../words/log.ts';
import { countText, dayText, momentText } from '../words/numbers.ts';
import { shell } from '../words/shell.ts';
import { say } from './say.ts';

interface LogPage {
  readonly entries: readonly Entry[];
  readonly head: { readonly count: number };
}

const PAGE = 50;

/** Seqs struck out by the entries of this page, with the entry that did it. */
export function strikesIn(entries: readonly Entry[]): ReadonlyMap<number, number> {
  const struck = entries
    .filter((entry) => entry.name === 'entry.struck')
    .flatMap((entry) => struckSeqs(entry).map((seq) => [seq, entry.seq] as const));
  return new Map(struck);
}

const struckSeqs = (entry: Entry): readonly number[] => {
  const data = entry.data as { readonly seq?: number; readonly seqs?: readonly number[] };
  return data.seqs ?? (data.seq === undefined ? [] : [data.seq]);
};

/** The log itself, newest first. */
export default function Log() {
  const { query } = useLocation();
  const head = useAddress<LogPage>('/api/log?limit=1').answer?.head.count;
  const before = Math.min(Number(query.before ?? Number.POSITIVE_INFINITY), (head ?? 0) + 1);
  const after = Math.max(0, before - 1 - PAGE);
  /* Strikes stand later than what they strike, so all later entries of the page's reach are asked too. */
  const address =
    head === undefined
      ? undefined
      : `/api/log?${queryOf({ after: String(after), limit: String(Math.min(1000, (head ?? 0) - after || 1)) })}`;
  const page = useAddress<LogPage>(address);
  const entries = (page.answer?.entries ?? []).filter((entry) => entry.seq < before).toReversed();
  const struck = strikesIn(page.answer?.entries ?? []);
  return (
    <Page title={words.title}>
      <p class="lead">{words.lead}</p>
      {page.problem && <ProblemSaid problem={page.problem} reading again={page.again} />}
      {head === undefined && !page.problem && <p class="waiting">{shell.waiting}</p>}
      {head === 0 && (
        <Empty what={words.empty}>
          <a href="/ware/begin">{words.emptyDo}</a>.
        </Empty>
      )}
      {head !== undefined && head > 0 && <p class="soft small">{words.count(countText(head))}</p>}
      {entries.length > 0 && (
        <ol class="ledger story">
          {entries.map((entry) => (
            <Line key={entry.seq} entry={entry} struckBy={struck.get(entry.seq)} />
          ))}
        </ol>
      )}
      {head !== undefined && (after > 0 || query.before) && (
        <p class="buttons">
          {query.before && (
            <a class="button" href="/log">
              {words.newest}
            </a>
          )}
          {after > 0 && (
            <a class="button" href={`/log?before=${after + 1}`}>
              {words.older}
            </a>
          )}
        </p>
      )}
    </Page>
  );
}

function Line({ entry, struckBy }: { readonly entry: Entry; readonly struckBy: number | undefined }) {
  const to = addressOf(entry);
  const name = entryNames[entry.name] ?? entry.name;
  const strikes = entry.name === 'entry.struck' ? struckSeqs(entry).map(String).join(', ') : undefined;
  return (
    <li>
      <div class="in-margin figure-text">{countText(entry.seq)}</div>
      <div class="line">
        <p class={struckBy === undefined ? undefined : 'struck'}>
          {to ? (
            <a class="line-link" href={to.href} aria-label={`${name}: ${to.name}`}>
              <strong>{name}</strong>
            </a>
          ) : (
            <strong>{strikes ? words.strikes(strikes) : name}</strong>
          )}{' '}
          {say(entry)}
        </p>
        <p class="small soft">
          {momentText(entry.happenedAt)}
          {dayText(entry.happenedAt) !== dayText(entry.recordedAt) &&
            ` · ${words.recorded} ${momentText(entry.recordedAt)}`}
        </p>
        {struckBy !== undefined && <p class="small">{words.struckBy(struckBy)}</p>}
        {struckBy === undefined && <Strike seq={entry.seq} />}
      </div>
    </li>
  );
}

/** The page of what the entry is about. */
function addressOf(entry: Entry): { href: string; name: string } | undefined {
  const data = entry.data as { readonly piece?: string; readonly firing?: string };
  if (data.piece) return { href: `/ware/${encodeURIComponent(data.piece)}`, name: words.piece };
  if (data.firing) return { href: `/kilns/${encodeURIComponent(data.firing)}`, name: words.firing };
  return undefined;
}
