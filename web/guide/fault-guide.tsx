import { KeepInMind } from '../parts/keep-in-mind.tsx';
import '../review/review.css';
import './guide.css';
import { useLocation } from 'preact-iso';
import { reportAddress } from '../api/client.ts';
import type { PieceRow } from '../api/studio.ts';
import { useMaterials } from '../api/use-materials.ts';
import { useAddress, useReport } from '../api/use-report.ts';
import { Page } from '../app/page.tsx';
import { FaultMark } from '../drawings/fault-mark.tsx';
import type { Row } from '../figures/cell.tsx';
import { Shown } from '../parts/asked.tsx';
import { Caution } from '../parts/caution.tsx';
import { PaperLink } from '../parts/paper-link.tsx';
import { guide as words } from '../words/guide.ts';
import { sentenceCase } from '../words/numbers.ts';
import { review } from '../words/review.ts';
import { GUIDE, type GuideAnswer, guideAddress, linesOf } from './guide-answer.ts';
import { Books, OwnRecord, Tries } from './guide-parts.tsx';
import { hasOn } from './on-piece.ts';

/** Without a fault, all of them; with one, its guide. */
export default function FaultGuide() {
  const { query } = useLocation();
  return query.fault ? <Guide fault={query.fault} query={query} /> : <AllFaults query={query} />;
}

type Query = Readonly<Record<string, string>>;

function AllFaults({ query }: { readonly query: Query }) {
  const asked = useAddress<{ readonly rows: readonly Row[]; readonly sentence: string }>(
    reportAddress(GUIDE, query),
  );
  const materials = useMaterials();
  return (
    <Page title={words.title} back={{ href: '/review', to: review.title }}>
      <p class="lead">{words.lead}</p>
      <Shown of={asked}>
        {({ rows, sentence }) => {
          const found = new Map(rows.map((row) => [String(row.key), row]));
          const own = materials.of('fault').map(({ value }) => value);
          const all = [...found.keys(), ...own.filter((id) => !found.has(id))];
          return (
            <>
              <p class="answer-sentence">{sentence}</p>
              <ul class="ledger plain-ledger all-faults part">
                {all.map((id) => (
                  <li key={id} class="whole">
                    <FaultMark kind={id} />
                    <div class="line">
                      <a class="reach" href={guideAddress(id)}>
                        {sentenceCase(materials.name('fault', id))}
                      </a>{' '}
                      <span class="soft">{words.found(Number(found.get(id)?.affected ?? 0))}</span>
                      <p class="small soft">{String(found.get(id)?.seen ?? '')}</p>
                    </div>
                  </li>
                ))}
              </ul>
            </>
          );
        }}
      </Shown>
    </Page>
  );
}

function Guide({ fault, query }: { readonly fault: string; readonly query: Query }) {
  const materials = useMaterials();
  const { piece, ...rest } = query;
  const asked = useAddress<GuideAnswer>(reportAddress(GUIDE, rest));
  const held = useReport<PieceRow>(piece ? 'studio/piece' : undefined, { piece }).answer?.rows[0];
  const name = materials.name('fault', fault);
  const back = piece
    ? { href: `/ware/${encodeURIComponent(piece)}`, to: words.backToPiece }
    : { href: `/review/${GUIDE}`, to: words.title };
  return (
    <Page
      title={
        <>
          <FaultMark kind={fault} /> {sentenceCase(name)}
        </>
      }
      name={`${sentenceCase(name)}: ${words.title}`}
      back={back}
    >
      <Shown of={asked}>
        {(answer) => (
          <div class="answer guide">
            <p class="lead">{answer.more.seen}</p>
            <Caution lines={linesOf(answer, 'caution').map((row) => String(row.label))} />
            <OwnRecord answer={answer} isHere={held && ((row) => hasOn(held, row))} />
            <Tries answer={answer} />
            <Books answer={answer} />
            <KeepInMind notes={answer.notes} small />
            <p class="buttons">
              {(['A4', 'Letter'] as const).map((paper) => (
                <PaperLink
                  key={paper}
                  paper={GUIDE}
                  params={{ ...rest, paper }}
                  title={words.onPaper(paper)}
                />
              ))}
              <button type="button" onClick={() => print()}>
                {review.print}
              </button>
              <a class="button" href={`/review/${GUIDE}`}>
                {words.all}
              </a>
            </p>
          </div>
        )}
      </Shown>
    </Page>
  );
}
