import './pack.css';
import { useLocation } from 'preact-iso';
import type { FiringMore, PlaceRow } from '../api/studio.ts';
import { useReport } from '../api/use-report.ts';
import { Page } from '../app/page.tsx';
import { FaultMark } from '../drawings/fault-mark.tsx';
import { Shown } from '../parts/asked.tsx';
import { Empty } from '../parts/empty.tsx';
import { Mark } from '../parts/mark.tsx';
import { Papers, type Printable } from '../parts/papers.tsx';
import { inPast, isPast, PastHere, PastSaid, pastOf } from '../parts/past.tsx';
import { Story } from '../parts/story.tsx';
import { PicturesOf } from '../pictures/of-thing.tsx';
import { titleOf } from '../ware/ware-list.tsx';
import { kilns, pack, firing as words } from '../words/kilns.ts';
import { momentText, pieces } from '../words/numbers.ts';
import { papers } from '../words/papers.ts';
import { piece as pieceWords } from '../words/piece.ts';
import { faultNames, furnitureNames, gradeNames, named, roleNames, zoneNames } from '../words/trade.ts';
import { FiringNext } from './firing-next.tsx';
import { KilnSide } from './kiln-side.tsx';
import { byShelf } from './load.ts';

export const useFiring = (firing: string, query: Readonly<Record<string, string>> = {}) =>
  useReport<PlaceRow, FiringMore>('studio/firing', { firing, ...pastOf(query) });

/** A firing's page: the load by shelf, what came out, and its story. */
export default function Firing({ params }: { readonly params: { readonly firing: string } }) {
  const { query } = useLocation();
  const asked = useFiring(params.firing, query);
  const past = isPast(query);
  const firing = asked.answer?.more.firing;
  const title = firing ? (firing.label ?? kilns.unnamed(firing.kilnName)) : kilns.title;
  return (
    <Page title={title} back={{ href: inPast('/kilns', query), to: kilns.title }}>
      <PastSaid query={query} />
      <Shown of={asked}>
        {({ rows, more }) =>
          more.firing ? (
            <>
              <p class="lead">{[words.states[more.firing.state], pieces(more.pieces ?? 0)].join(' · ')}</p>
              {!past && <FiringNext firing={more.firing} />}
              <Facts firing={more.firing} />
              {more.graded && more.graded.first + more.graded.second + more.graded.waster > 0 && (
                <section class="part">
                  <h2>{words.out}</h2>
                  <p>{pieceWords.grades(more.graded.first, more.graded.second, more.graded.waster)}</p>
                </section>
              )}
              <LoadOf rows={rows} drawn={more.firing.state === 'drawn'} kiln={more.kiln} />
              <Papers papers={papersOf(more.firing, rows, pastOf(query))} />
              <section class="part">
                <h2>{words.story}</h2>
                <PicturesOf
                  to={`firing:${params.firing}`}
                  name={title}
                  photos={more.firing.photos}
                  past={past}
                />
                <Story lines={more.story} past={past} />
              </section>
            </>
          ) : (
            <Empty what={words.gone}>{words.goneWhy}</Empty>
          )
        }
      </Shown>
      <PastHere />
    </Page>
  );
}

/** The load while it is packed and fired, the opening sheet before it is drawn, slips once it is. */
function papersOf(
  { firing, state }: NonNullable<FiringMore['firing']>,
  rows: readonly PlaceRow[],
  past: Readonly<Record<string, string | undefined>>,
): (Printable | false)[] {
  if (rows.length === 0) return [];
  const params = { firing, ...past };
  return [
    { paper: 'studio/load-sheet', title: papers.loadSheet, params },
    { paper: 'studio/opening-sheet', title: papers.openingSheet, params },
    { paper: 'studio/labels', title: papers.labels, params },
    state === 'drawn' &&
      rows.some((row) => row.owner !== 'own') && {
        paper: 'studio/collection-slips',
        title: papers.collectionSlips,
        params,
      },
  ];
}

function Facts({ firing }: { readonly firing: NonNullable<FiringMore['firing']> }) {
  const facts: readonly (readonly [string, string | false | undefined])[] = [
    [words.kiln, firing.kilnName],
    [words.role, firing.role && roleNames[firing.role]],
    [words.schedule, firing.scheduleName ?? undefined],
    [words.packedAt, firing.packedAt && momentText(firing.packedAt)],
    [words.litAt, firing.litAt && momentText(firing.litAt)],
    [words.endedAt, firing.endedAt && momentText(firing.endedAt)],
    [words.drawnAt, firing.drawnAt && momentText(firing.drawnAt)],
    [words.top, firing.top !== undefined && words.degrees(firing.top)],
    [words.cones, firing.cones?.map((c) => words.cone(c.shelf, c.cone, c.bend)).join('; ')],
  ];
  return (
    <section class="part">
      <h2>{words.facts}</h2>
      <dl class="facts">
        {facts.map(
          ([name, value]) =>
            value && (
              <>
                <dt>{name}</dt>
                <dd>{value}</dd>
              </>
            ),
        )}
      </dl>
    </section>
  );
}

function LoadOf({
  rows,
  drawn,
  kiln,
}: {
  readonly rows: readonly PlaceRow[];
  readonly drawn: boolean;
  readonly kiln: FiringMore['kiln'];
}) {
  if (rows.length === 0) return null;
  return (
    <section class="part">
      <h2>{words.load}</h2>
      <KilnSide places={rows} kiln={kiln} />
      {byShelf(rows).map(({ shelf, puts }) => (
        <div key={shelf} class="shelf-load">
          <h3>{shelf === null ? pack.noShelf : pack.onShelf(shelf)}</h3>
          <ul class="ledger">
            {puts.map((row) => (
              <PlaceLine key={row.piece} row={row} drawn={drawn} />
            ))}
          </ul>
        </div>
      ))}
    </section>
  );
}

function PlaceLine({ row, drawn }: { readonly row: PlaceRow; readonly drawn: boolean }) {
  const glazes = [...new Set(row.glazings.flatMap((g) => g.layers.map((layer) => layer.name)))].join(', ');
  const under = row.furniture.map((id) => named(furnitureNames, id));
  const grade = row.grade ? gradeNames[row.grade] : row.drawn || drawn ? words.notGraded : words.stillIn;
  return (
    <li class="whole">
      <div class="in-margin">
        <Mark mark={row.mark} />
      </div>
      <div class="line">
        <p class="first-line">
          <a class="reach" href={`/ware/${encodeURIComponent(row.piece)}`}>
            <strong>{titleOf(row)}</strong>
          </a>
          <span>{grade}</span>
        </p>
        <p class="small soft">
          {[row.clayName, glazes, row.position, under.length > 0 && words.on(under.join(', '))]
            .filter(Boolean)
            .join(' · ')}
        </p>
        {row.faults.map((fault, n) => (
          <p key={n} class="small">
            <FaultMark kind={fault.kind} /> {named(faultNames, fault.kind)}
            {fault.zone && `, ${named(zoneNames, fault.zone)}`}{' '}
            {row.count > 1 && pieceWords.onPieces(fault.count)}
          </p>
        ))}
      </div>
    </li>
  );
}
