import '../figures/figures.css';
import type { Stage } from '../../server/contract/trade.ts';
import { STAGES } from '../../server/contract/trade.ts';
import { nameText, type WaitingLine, type WaitingTold } from '../api/studio.ts';
import { useAddress } from '../api/use-report.ts';
import { Page } from '../app/page.tsx';
import { Tally } from '../figures/tally.tsx';
import { PhoneHint } from '../network/phone-hint.tsx';
import { Shown } from '../parts/asked.tsx';
import { Empty } from '../parts/empty.tsx';
import { Mark } from '../parts/mark.tsx';
import { today as day, dayText, nearDayText, pieces, sentenceCase, shortDayText } from '../words/numbers.ts';
import { shell } from '../words/shell.ts';
import { today as words } from '../words/today.ts';
import { stageNames } from '../words/trade.ts';
import { ware } from '../words/ware.ts';
import { type Heading, headingsOf } from './lines.ts';

/** Under which filter of the ware the rest of a heading stands. */
const REST: Readonly<Record<string, string>> = {
  mend: '/ware?stage=mending',
  grade: '/ware?stage=glaze-fired',
  dry: '/ware?stage=made',
  'ask-buyer': '/post',
  settle: '/post',
  'pack-orders': '/post',
  'make-for-orders': '/post',
  'make-more': '/review/shop-orders/reorder',
};

/** What waits for the potter, then where all the ware stands. */
export default function Today() {
  const asked = useAddress<WaitingTold>('/api/waiting');
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
      <PhoneHint />
      <Shown of={asked}>{(answer) => <Waiting {...answer} />}</Shown>
    </Page>
  );
}

function Waiting({ told, failed }: WaitingTold) {
  const standing = told.find(({ more }) => more?.standing)?.more?.standing ?? {};
  const any = Object.keys(standing).length > 0;
  const groups = headingsOf(told, Date.now());
  return (
    <>
      {groups.length === 0 && any && <p>{words.nothing}</p>}
      {groups.length === 0 && !any && (
        <Empty what={words.empty}>
          <a href="/ware/begin">{words.emptyDo}</a>.
        </Empty>
      )}
      {groups.map((group) => (
        <Group key={group.does} {...group} />
      ))}
      {failed.map(({ plugin, sentence }) => (
        <div key={plugin} class="problem">
          <p>{words.failed(plugin)}</p>
          <p class="code">{shell.codeIs(sentence)}</p>
        </div>
      ))}
      {any && <StandingTally standing={standing} />}
    </>
  );
}

function Group({ does, title, lines, unlisted }: Heading) {
  return (
    <section class="part">
      <h2>{title}</h2>
      <ul class="ledger">
        {lines.map((line, n) => (
          <Line key={`${line.to} ${n}`} line={line} />
        ))}
      </ul>
      {unlisted > 0 && (
        <p class="soft">
          {REST[does] ? <a href={REST[does]}>{words.more(unlisted)}</a> : words.more(unlisted)}
        </p>
      )}
    </section>
  );
}

function Line({ line }: { readonly line: WaitingLine }) {
  const { mark, what, where, since, due, to } = line;
  const count = line.pieces ?? 1;
  const firing = line.does === 'draw' || line.does === 'cool';
  const name = nameText(line.person);
  return (
    <li class="whole needs">
      <div class="in-margin">
        {mark ? <Mark mark={mark} /> : <span class="small">{since ? nearDayText(since) : ''}</span>}
      </div>
      <div class="line">
        <p class="first-line">
          <a class="reach" href={to}>
            <strong>{mark ? ware.many(count, what) : what}</strong>
          </a>
          <span class="soft">
            {due
              ? words.due(shortDayText(due))
              : mark
                ? since && nearDayText(since)
                : line.pieces
                  ? pieces(count)
                  : ''}
          </span>
        </p>
        {name && <p class="small">{name}</p>}
        {where && where !== what && <p class="small soft">{where}</p>}
        {firing && since && since.length > 10 && <p class="small">{words.coolsSince(since)}</p>}
        {firing && line.usually && <p class="small soft">{words.usually(line.usually)}</p>}
      </div>
    </li>
  );
}

type Standing = Readonly<Partial<Record<Stage, number>>>;

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
