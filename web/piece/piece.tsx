import './piece.css';
import { useLocation } from 'preact-iso';
import type { PieceMore, PieceRow } from '../api/studio.ts';
import { useReport } from '../api/use-report.ts';
import { Page } from '../app/page.tsx';
import { Shown } from '../parts/asked.tsx';
import { Empty } from '../parts/empty.tsx';
import { Mark } from '../parts/mark.tsx';
import { Papers, type Printable } from '../parts/papers.tsx';
import { inPast, isPast, PastHere, PastSaid, pastOf } from '../parts/past.tsx';
import { Story } from '../parts/story.tsx';
import { PicturesOfPiece } from '../pictures/of-piece.tsx';
import { titleOf } from '../ware/ware-list.tsx';
import { papers } from '../words/papers.ts';
import { piece as words } from '../words/piece.ts';
import { gradeNames, stageNames } from '../words/trade.ts';
import { ware } from '../words/ware.ts';
import { Facts } from './facts.tsx';
import { Next } from './next.tsx';

export const usePiece = (piece: string, query: Readonly<Record<string, string>> = {}) =>
  useReport<PieceRow, PieceMore>('studio/piece', { piece, ...pastOf(query) });

/** A piece's page is its story: what can be done next, how it is now, and all that happened. */
export default function Piece({ params }: { readonly params: { readonly piece: string } }) {
  const { query } = useLocation();
  const asked = usePiece(params.piece, query);
  const past = isPast(query);
  const row = asked.answer?.rows[0];
  const title = row ? (
    <>
      <Mark mark={row.mark} /> {titleOf({ count: row.count, form: row.form ?? null })}
    </>
  ) : (
    words.story
  );
  return (
    <Page
      title={title}
      name={row ? `${row.mark ?? ''} ${row.form ?? ware.piece}`.trim() : words.story}
      back={{ href: inPast('/ware', query), to: ware.title }}
    >
      <PastSaid query={query} />
      <Shown of={asked}>
        {({ rows, more }) =>
          rows[0] ? (
            <>
              <p class="lead">{standing(rows[0])}</p>
              {!past && <Next piece={rows[0]} next={more.next} />}
              <Facts piece={rows[0]} siblings={more.siblings ?? []} />
              <Papers papers={papersOf(rows[0], pastOf(query))} />
              <section class="part">
                <h2>{words.story}</h2>
                <p class="soft small prose">{words.storyNote}</p>
                <PicturesOfPiece piece={rows[0]} past={past} />
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

/** A label while it is here, and a price card once it can be sold. */
function papersOf(row: PieceRow, past: Readonly<Record<string, string | undefined>>): (Printable | false)[] {
  if (row.stage === 'left') return [];
  const params = { pieces: row.piece, ...past };
  const grade = row.gradings.at(-1)?.grade;
  const forSale = row.stage === 'graded' && grade !== 'waster' && row.price && row.owner.kind === 'own';
  return [
    { paper: 'studio/labels', title: papers.label, params },
    forSale ? { paper: 'studio/price-cards', title: papers.priceCard, params } : false,
  ];
}

function standing(piece: PieceRow): string {
  const grade = piece.stage === 'graded' ? piece.gradings.at(-1)?.grade : undefined;
  return [grade ? `${stageNames.graded}: ${gradeNames[grade]}` : stageNames[piece.stage], piece.clayName]
    .filter(Boolean)
    .join(' · ');
}
