import type { Stage } from '../../server/contract/trade.ts';
import { STAGES } from '../../server/contract/trade.ts';
import type { WaitingRow } from '../api/studio.ts';
import { useReport } from '../api/use-report.ts';
import { Page } from '../app/page.tsx';
import { Tally } from '../figures/tally.tsx';
import '../figures/figures.css';
import { Shown } from '../parts/asked.tsx';
import { Empty } from '../parts/empty.tsx';
import { Mark } from '../parts/mark.tsx';
import { today as day, dayText, nearDayText, pieces, sentenceCase } from '../words/numbers.ts';
import { shell } from '../words/shell.ts';
import { today as words } from '../words/today.ts';
import { stageNames } from '../words/trade.ts';
import { ware } from '../words/ware.ts';

const GROUPS = ['draw', 'end', 'light', 'mend', 'grade'] as const;

type Standing = Readonly<Partial<Record<Stage, number>>>;

/** What waits for the potter, then where all the ware stands. */
export default function Today() {
  const asked = useReport<WaitingRow, { readonly standing?: Standing }>('studio/today');
  return (
    <Page
      title={shell.today}
      aside={
        <a class="button main" href="/ware/begin">
          {ware.begin}
        </a>
      }
    >
      <p class="lead">{dayText(day())}</p>
      <Shown of={asked}>
        {({ rows, more }) => {
          const standing = more?.standing ?? {};
          const any = Object.keys(standing).length > 0;
          return (
            <>
              {rows.length === 0 && any && <p>{words.nothing}</p>}
              {rows.length === 0 && !any && (
                <Empty what={words.empty}>
                  <a href="/ware/begin">{words.emptyDo}</a>.
                </Empty>
              )}
              {GROUPS.map((does) => (
                <Group key={does} title={words[does]} rows={rows.filter((row) => row.does === does)} />
              ))}
              {any && <StandingTally standing={standing} />}
            </>
          );
        }}
      </Shown>
    </Page>
  );
}

function Group({ title, rows }: { readonly title: string; readonly rows: readonly WaitingRow[] }) {
  if (rows.length === 0) return null;
  return (
    <section class="part">
      <h2>{title}</h2>
      <ul class="ledger">
        {rows.map((row) => (
          <li key={row.to} class="whole needs">
            <div class="in-margin">
              {row.kind === 'firing' ? (
                <span class="small">{nearDayText(row.since)}</span>
              ) : (
                <Mark mark={row.mark} />
              )}
            </div>
            <div class="line">
              <p class="first-line">
                <a class="reach" href={row.to}>
                  <strong>{row.kind === 'firing' ? row.what : ware.many(row.pieces, row.what)}</strong>
                </a>
                <span class="soft">
                  {row.kind === 'firing' ? pieces(row.pieces) : nearDayText(row.since)}
                </span>
              </p>
              {row.where && row.where !== row.what && <p class="small soft">{row.where}</p>}
            </div>
          </li>
        ))}
      </ul>
    </section>
  );
}

function StandingTally({ standing }: { readonly standing: Standing }) {
  // What has left stands nowhere here any more.
  const rows = STAGES.filter((stage) => stage !== 'left' && standing[stage]).map((stage) => ({
    stage: sentenceCase(stageNames[stage]),
    pieces: standing[stage],
    stageBehind: `/ware?stage=${stage}`,
    behind: `/ware?stage=${stage}`,
  }));
  return (
    <section class="part figure">
      <h2>{words.standing}</h2>
      <Tally
        title={words.standing}
        label="stage"
        parts={[{ field: 'pieces', label: words.count, kind: 'count', behind: 'behind' }]}
        rows={rows}
      />
    </section>
  );
}
