import { useLocation } from 'preact-iso';
import type { FiringRow, Paged } from '../api/studio.ts';
import { useMaterials } from '../api/use-materials.ts';
import { useReport } from '../api/use-report.ts';
import { Page } from '../app/page.tsx';
import { Shown } from '../parts/asked.tsx';
import { Empty } from '../parts/empty.tsx';
import { Papers } from '../parts/papers.tsx';
import { inPast, PastHere, PastSaid, pastOf } from '../parts/past.tsx';
import { kilns as words } from '../words/kilns.ts';
import { nearDayText, pieces } from '../words/numbers.ts';
import { papers } from '../words/papers.ts';
import { roleNames } from '../words/trade.ts';

const STATES = ['ended', 'lit', 'packed', 'drawn', 'abandoned'] as const;
const WAITING: readonly string[] = ['ended', 'lit', 'packed'];

/** Firings by what they wait for. */
export default function Kilns() {
  const { query } = useLocation();
  const asked = useReport<FiringRow, Paged | undefined>('studio/firings', {
    ...pastOf(query),
    after: query.after,
    limit: '40',
  });
  const materials = useMaterials();
  const noKilns = materials.known && materials.of('kiln').length === 0;
  return (
    <Page
      title={words.title}
      aside={
        !noKilns && (
          <a class="button main" href="/kilns/pack">
            {words.pack}
          </a>
        )
      }
    >
      {noKilns && (
        <Empty what={words.empty}>
          {words.noKilns} <a href="/materials">{words.addKiln}</a>.
        </Empty>
      )}
      <PastSaid query={query} />
      <Shown of={asked}>
        {({ rows, more }) => (
          <>
            {rows.length === 0 && !noKilns && (
              <Empty what={words.empty}>
                <a href="/kilns/pack">{words.emptyDo}</a>.
              </Empty>
            )}
            {STATES.map((state) => (
              <Group
                key={state}
                state={state}
                query={query}
                rows={rows.filter((row) => row.state === state)}
              />
            ))}
            {(more?.next || query.after) && (
              <p class="buttons">
                {query.after && (
                  <a class="button" href="/kilns">
                    {words.newest}
                  </a>
                )}
                {more?.next && (
                  <a class="button" href={`/kilns?after=${more.next}`}>
                    {words.older}
                  </a>
                )}
              </p>
            )}
          </>
        )}
      </Shown>
      <Papers
        papers={[
          { paper: 'studio/collection-slips', title: papers.collectionSlips, params: pastOf(query) },
          { paper: 'studio/price-cards', title: papers.priceCards, params: pastOf(query) },
        ]}
      />
      <PastHere />
    </Page>
  );
}

interface GroupProps {
  readonly state: (typeof STATES)[number];
  readonly rows: readonly FiringRow[];
  readonly query: Readonly<Record<string, string>>;
}

function Group({ state, rows, query }: GroupProps) {
  if (rows.length === 0) return null;
  return (
    <section class="part">
      <h2>{words[state]}</h2>
      <ol class="ledger">
        {rows.map((row) => (
          <li key={row.firing} class={WAITING.includes(state) ? 'whole needs' : 'whole'}>
            <div class="in-margin small">
              {nearDayText((row.drawnAt ?? row.endedAt ?? row.litAt ?? row.packedAt)!)}
            </div>
            <div class="line">
              <p class="first-line">
                <a class="reach" href={inPast(`/kilns/${encodeURIComponent(row.firing)}`, query)}>
                  <strong>{row.label ?? words.unnamed(row.kilnName ?? '')}</strong>
                </a>
                <span>{pieces(row.pieces)}</span>
              </p>
              <p class="small soft">
                {[row.kilnName, row.role && roleNames[row.role], row.scheduleName]
                  .filter(Boolean)
                  .join(' · ')}
              </p>
            </div>
          </li>
        ))}
      </ol>
    </section>
  );
}
