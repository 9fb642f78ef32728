import { nameText, type WareRow } from '../api/studio.ts';
import { Mark } from '../parts/mark.tsx';
import { shortDayText } from '../words/numbers.ts';
import { gradeNames, ownerNames, stageNames } from '../words/trade.ts';
import { ware } from '../words/ware.ts';

export const titleOf = (row: Pick<WareRow, 'count' | 'form'>): string =>
  ware.many(row.count, row.form ?? ware.piece);

const ownerText = (row: WareRow): string | undefined =>
  row.owner === 'own'
    ? undefined
    : [ownerNames[row.owner], nameText(row.ownerName)].filter(Boolean).join(': ');

/** Each line leads to the story of its piece. */
export const WareList = ({ rows }: { readonly rows: readonly WareRow[] }) => (
  <ol class="ledger">
    {rows.map((row) => (
      <li key={row.piece} class="whole">
        <div class="in-margin">
          <Mark mark={row.mark} />
        </div>
        <div class="line">
          <p class="first-line">
            <a class="reach" href={`/ware/${row.piece}`}>
              <strong>{titleOf(row)}</strong>
            </a>
            <span>{row.stage === 'graded' && row.grade ? gradeNames[row.grade] : stageNames[row.stage]}</span>
          </p>
          <p class="small">
            {[row.clayName, row.glazeNames.join(', '), ownerText(row)].filter(Boolean).join(' · ')}
          </p>
          <p class="small soft">{shortDayText(row.changedAt)}</p>
        </div>
      </li>
    ))}
  </ol>
);
