import { nameText, type WareRow } from '../api/studio.ts';
import { Mark } from '../parts/mark.tsx';
import { inPast } from '../parts/past.tsx';
import { nearDayText } from '../words/numbers.ts';
import { gradeNames, ownerNames, stageNames } from '../words/trade.ts';
import { ware } from '../words/ware.ts';

export const titleOf = (row: Pick<WareRow, 'count' | 'form'>): string =>
  ware.many(row.count, row.form ?? ware.piece);

const ownerText = (row: WareRow): string | undefined =>
  row.owner === 'own'
    ? undefined
    : [ownerNames[row.owner], nameText(row.ownerName)].filter(Boolean).join(': ');

interface Props {
  readonly rows: readonly WareRow[];
  /** What was asked: the stories stay in the past that is looked at. */
  readonly query?: Readonly<Record<string, string>>;
}

/** Each line leads to the story of its piece. */
export const WareList = ({ rows, query = {} }: Props) => (
  <ol class="ledger">
    {rows.map((row) => (
      <li key={row.piece} class="whole">
        <div class="in-margin">
          <Mark mark={row.mark} />
        </div>
        <div class="line">
          <p class="first-line">
            <a class="reach" href={inPast(`/ware/${encodeURIComponent(row.piece)}`, query)}>
              <strong>{titleOf(row)}</strong>
            </a>
            <span>{row.stage === 'graded' && row.grade ? gradeNames[row.grade] : stageNames[row.stage]}</span>
          </p>
          <p class="small">
            {[row.clayName, row.glazeNames.join(', '), ownerText(row)].filter(Boolean).join(' · ')}
          </p>
          <p class="small soft">{nearDayText(row.changedAt)}</p>
        </div>
      </li>
    ))}
  </ol>
);
