import '../figures/figures.css';
import { Cell, cellText, type Row } from '../figures/cell.tsx';
import { Ranking } from '../figures/ranking.tsx';
import { guide as words } from '../words/guide.ts';
import { type GuideAnswer, linesOf } from './guide-answer.ts';

interface Props {
  readonly answer: GuideAnswer;
}

/** Suspects in the picture, and the others that only look so. */
const SHOWN = 5;
const WEAK: readonly unknown[] = ['chance', 'few'];

const NAMED = { field: 'label', label: '', kind: 'text', behind: 'labelBehind' } as const;

/** `isHere`: whether the piece that was come from has it. */
export function OwnRecord({ answer, isHere }: Props & { readonly isHere?: (row: Row) => boolean }) {
  const rows = linesOf(answer, 'suspect');
  const suspected = rows.filter(({ finding }) => !WEAK.includes(finding));
  const shown = (suspected.length > 0 ? suspected : rows).slice(0, SHOWN);
  const { firing, record } = answer.more;
  return (
    <section class="part figure">
      <h2>{words.record}</h2>
      <p class="answer-sentence">{record}</p>
      {firing && (
        <p>
          <a href={firing.address}>
            {words.oneFiring}: {firing.label}
          </a>
        </p>
      )}
      {shown.length > 0 && (
        <>
          <ul class="suspects">
            {shown.map((row) => (
              <li key={`${row.by} ${row.id}`}>
                <strong>
                  <Cell column={NAMED} row={row} />
                </strong>{' '}
                ({cellText('text', row.what)}
                {isHere?.(row) && <>, {words.onThis}</>}): {cellText('text', row.verdict)}
              </li>
            ))}
          </ul>
          <Ranking
            title={words.record}
            label="label"
            estimate={{ field: 'rate', label: words.goesWith, kind: 'rate' }}
            low="low"
            high="high"
            pieces="pieces"
            rows={shown}
          />
        </>
      )}
    </section>
  );
}

export function Tries({ answer }: Props) {
  const repairs = linesOf(answer, 'repair');
  return (
    <section class="part">
      <h2>{words.tries}</h2>
      <Lines rows={linesOf(answer, 'try')} />
      <h3>{words.here}</h3>
      {repairs.length === 0 ? (
        <p class="soft">{words.noRepairs}</p>
      ) : (
        <ul class="suspects">
          {repairs.map((row) => (
            <li key={String(row.key)}>
              <strong>{cellText('text', row.label)}</strong>: {words.workedOn(String(row.says))}
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

export function Books({ answer }: Props) {
  return (
    <section class="part">
      <h2>{words.books}</h2>
      <Lines rows={linesOf(answer, 'book')} />
    </section>
  );
}

const Lines = ({ rows }: { readonly rows: readonly Row[] }) => (
  <ul class="suspects">
    {rows.map((row) => (
      <li key={String(row.key)}>
        {String(row.label)}
        {row.practice === true && <span class="soft"> ({words.practice})</span>}
      </li>
    ))}
  </ul>
);
