import type { Column } from '../../server/contract/figures.ts';
import { queryOf } from '../api/client.ts';
import { Cell, cellText, type Row } from '../figures/cell.tsx';
import '../figures/figures.css';
import { Ranking } from '../figures/ranking.tsx';
import { Table } from '../figures/table.tsx';
import { Tally } from '../figures/tally.tsx';
import { countText, moneyText } from '../words/numbers.ts';
import { year as words } from '../words/year.ts';
import { partOf, type YearAnswer } from './year-answer.ts';

interface Props {
  readonly answer: YearAnswer;
}

/** How many of a ranking stand on the page; all are in the table file. */
const SHOWN = 5;

export const Changes = ({ advice }: { readonly advice: readonly string[] }) => (
  <section class="part to-change">
    <h2>{words.change}</h2>
    {advice.map((each) => (
      <p key={each}>{each}</p>
    ))}
  </section>
);

const GRADES: readonly Column[] = [
  { field: 'firsts', label: words.firsts, kind: 'count', behind: 'firstsBehind' },
  { field: 'seconds', label: words.seconds, kind: 'count', behind: 'secondsBehind' },
  { field: 'wasters', label: words.wasters, kind: 'count', behind: 'wastersBehind' },
];

export function CameOut({ answer }: Props) {
  const { year } = answer.more;
  const grades = partOf(answer, 'grade');
  const counts = (label: string, field: string): Row => ({
    label,
    ...Object.fromEntries(grades.map((row) => [String(row.key), row[field]])),
  });
  const links = Object.fromEntries(grades.map((row) => [`${row.key}Behind`, row.piecesBehind]));
  const lost = partOf(answer, 'lost');
  const [tried, worked] = partOf(answer, 'mended');
  return (
    <section class="part">
      <h2>{words.cameOut}</h2>
      <Tally
        title={words.cameOut}
        label="label"
        parts={GRADES}
        rows={[
          {
            ...counts(
              year.over ? year.name || words.days(year.from, year.to) : words.present(year.name),
              'pieces',
            ),
            ...links,
          },
          counts(year.over ? words.same : words.sameDays, 'piecesBefore'),
        ]}
      />
      <dl class="facts year-facts">
        {lost.map((row) => (
          <Fact
            key={String(row.currency)}
            name={lost.length > 1 ? words.lostIn(String(row.currency)) : words.lost}
            now={moneyText(Number(row.lost), String(row.currency))}
            before={moneyText(Number(row.lostBefore), String(row.currency))}
          />
        ))}
        {tried && worked && (
          <>
            <Fact
              name={words.tried}
              now={countText(Number(tried.pieces))}
              before={countText(Number(tried.piecesBefore))}
            />
            <Fact
              name={words.worked}
              now={countText(Number(worked.pieces))}
              before={countText(Number(worked.piecesBefore))}
            />
          </>
        )}
      </dl>
    </section>
  );
}

const Fact = ({
  name,
  now,
  before,
}: {
  readonly name: string;
  readonly now: string;
  readonly before: string;
}) => (
  <>
    <dt>{name}</dt>
    <dd>
      <strong>{now}</strong> <span class="soft">{words.beside(before)}</span>
    </dd>
  </>
);

export function WorstGlazes({ answer }: Props) {
  const { year, worst } = answer.more;
  const rows = partOf(answer, 'worst');
  const all = `/review/seconds-tally/worst-glaze?${queryOf({ from: year.from, to: year.until })}`;
  return (
    <section class="part figure">
      <h2>{words.worst}</h2>
      <p class="prose">{worst}</p>
      {rows.length > 0 && (
        <Ranking
          title={words.worst}
          label="label"
          estimate={{ field: 'laid', label: words.laid, kind: 'number', behind: 'laidBehind' }}
          low="laidLow"
          high="laidHigh"
          pieces="pieces"
          rows={rows.slice(0, SHOWN)}
        />
      )}
      <p class="no-paper">
        <a class="button plain" href={all}>
          {words.allWorst}
        </a>
      </p>
    </section>
  );
}

export function BestGlazes({ answer }: Props) {
  const rows = partOf(answer, 'best').slice(0, SHOWN);
  return (
    <section class="part figure">
      <h2>{words.best}</h2>
      {rows.length === 0 ? (
        <p class="soft">{words.noGlazes}</p>
      ) : (
        <>
          <p class="prose">{answer.more.best}</p>
          <p class="soft small">{words.bestLead}</p>
          <Ranking
            title={words.best}
            label="label"
            estimate={{ field: 'even', label: words.rate, kind: 'rate' }}
            low="evenLow"
            high="evenHigh"
            pieces="pieces"
            rows={rows}
          />
        </>
      )}
    </section>
  );
}

export function Mended({ answer }: Props) {
  const rows = partOf(answer, 'repair');
  return (
    <section class="part figure">
      <h2>{words.repairs}</h2>
      <p class="prose">{answer.more.mended}</p>
      {rows.length > 0 && (
        <>
          <p class="soft small">{words.repairsLead}</p>
          <Ranking
            title={words.repairs}
            label="label"
            estimate={{ field: 'even', label: words.worksHow, kind: 'rate' }}
            low="evenLow"
            high="evenHigh"
            pieces="tried"
            rows={rows.slice(0, SHOWN)}
          />
        </>
      )}
    </section>
  );
}

const CHANGES: readonly Column[] = [
  { field: 'label', label: words.what, kind: 'text' },
  { field: 'what', label: words.kind, kind: 'text', wide: true },
  { field: 'rateBefore', label: words.same, kind: 'rate' },
  { field: 'rate', label: words.now, kind: 'rate' },
  { field: 'says', label: words.howSure, kind: 'text' },
];

export function Changed({ answer }: Props) {
  const rows = partOf(answer, 'change');
  const different = rows.filter((row) => row.beyondChance);
  return (
    <section class="part">
      <h2>{words.changed}</h2>
      {different.map((row) => (
        <p key={String(row.key)} class="prose">
          <strong>
            <Cell column={CHANGES[0]!} row={row} />
          </strong>
          : {cellText('text', row.says)}.
        </p>
      ))}
      {different.length === 0 && (
        <p class="prose">{rows.length > 0 ? words.changedNone : words.changedNothing}</p>
      )}
      {rows.length > 0 && (
        <details class="no-paper">
          <summary>{words.allChanges(rows.length)}</summary>
          <Table title={words.changed} columns={CHANGES} rows={rows} />
        </details>
      )}
    </section>
  );
}
