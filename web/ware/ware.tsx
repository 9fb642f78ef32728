import { useLocation } from 'preact-iso';
import { queryOf } from '../api/client.ts';
import type { Paged, WareRow } from '../api/studio.ts';
import { useReport } from '../api/use-report.ts';
import { Page } from '../app/page.tsx';
import { Shown } from '../parts/asked.tsx';
import { Empty } from '../parts/empty.tsx';
import { PastSaid } from '../parts/past.tsx';
import { pictures } from '../words/pictures.ts';
import { ware } from '../words/ware.ts';
import { Filters, narrowing } from './filters.tsx';
import { WareList } from './ware-list.tsx';

const PAGE = '50';

/** All the ware there is, the one last worked on first. */
export default function Ware() {
  const { query, route } = useLocation();
  const asked = useReport<WareRow, Paged>('studio/ware', { ...query, limit: query.limit ?? PAGE });
  const go = (params: Record<string, string | undefined>) => {
    const next = queryOf(params);
    route(`/ware${next ? `?${next}` : ''}`, true);
  };
  const narrowed = narrowing(query).length > 0;
  return (
    <Page
      title={ware.title}
      aside={
        <a class="button main" href="/ware/begin">
          {ware.begin}
        </a>
      }
    >
      <p class="no-paper">
        <a class="reach-line" href="/ware/pictures">
          {pictures.toWall}
        </a>
      </p>
      <Filters query={query} go={go} />
      <PastSaid query={query} />
      <Shown of={asked}>
        {({ sentence, rows, more }) => (
          <>
            {rows.length > 0 && (
              <>
                <p class="lead" role="status">
                  {sentence}
                </p>
                <WareList rows={rows} query={query} />
              </>
            )}
            {rows.length === 0 && (narrowed ? <NoMatch clear={() => go({})} /> : <Nothing />)}
            <Paging query={query} next={more?.next} />
          </>
        )}
      </Shown>
    </Page>
  );
}

const NoMatch = ({ clear }: { readonly clear: () => void }) => (
  <Empty what={ware.noMatch}>
    <button type="button" onClick={clear}>
      {ware.showAll}
    </button>
  </Empty>
);

const Nothing = () => (
  <Empty what={ware.empty}>
    <a href="/ware/begin">{ware.emptyDo}</a> {ware.emptyOr.slice(0, ware.emptyOr.indexOf(' '))}{' '}
    <a href="/import">{ware.emptyOr.slice(ware.emptyOr.indexOf(' ') + 1)}</a>.
  </Empty>
);

function Paging({ query, next }: { readonly query: Record<string, string>; readonly next?: number }) {
  if (!next && !query.after) return null;
  const { after: _, ...rest } = query;
  return (
    <nav class="buttons" aria-label={ware.title}>
      {query.after && (
        <a class="button" href={`/ware?${queryOf(rest)}`}>
          {ware.newest}
        </a>
      )}
      {next && (
        <a class="button" href={`/ware?${queryOf({ ...rest, after: String(next) })}`}>
          {ware.next}
        </a>
      )}
    </nav>
  );
}
