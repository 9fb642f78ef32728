import { Mark } from '../parts/mark.tsx';
import { find as words } from '../words/find.ts';
import { named, stageNames } from '../words/trade.ts';
import { ware } from '../words/ware.ts';
import type { Found, Marked } from './match.ts';

interface Props {
  readonly found: Found;
  readonly text: string;
  readonly onPick: (row: Marked) => void;
  /** Where all ware is looked through; left out where only what is here will do. */
  readonly everywhere?: string;
}

/** Links or keys to what was found; what is wrong with a mark, and what it can have been. */
export function Results({ found, text, onPick, everywhere }: Props) {
  const { hits, likely, wrong } = found;
  return (
    <div class="find-results">
      <p class="unseen" role="status">
        {hits.length > 0 ? words.found(hits.length) : wrong}
      </p>
      {hits.length === 0 && wrong && <p class="wrong">{wrong}</p>}
      {hits.length === 0 && !wrong && text.trim().length > 3 && <p>{words.none}</p>}
      {hits.length > 0 && <Rows rows={hits} onPick={onPick} />}
      {likely.length > 0 && (
        <>
          <p>{words.likely}</p>
          <Rows rows={likely} onPick={onPick} />
        </>
      )}
      {everywhere && text.trim() && (
        <p>
          <a href={everywhere}>{words.everywhere}</a>
        </p>
      )}
    </div>
  );
}

const Rows = ({
  rows,
  onPick,
}: {
  readonly rows: readonly (Marked & { readonly how?: keyof typeof words.how })[];
  readonly onPick: (row: Marked) => void;
}) => (
  <ul>
    {rows.map((row) => (
      <li key={row.piece}>
        <button type="button" class="find-row" onClick={() => onPick(row)}>
          <Mark mark={row.mark} />
          <span>
            {ware.many(row.count, row.form ?? ware.piece)}
            <span class="soft"> {row.how ? words.how[row.how] : named(stageNames, row.stage)}</span>
          </span>
        </button>
      </li>
    ))}
  </ul>
);
