import type { PlaceRow } from '../../api/studio.ts';
import { Mark } from '../../parts/mark.tsx';
import { titleOf } from '../../ware/ware-list.tsx';
import { draw as words } from '../../words/draw.ts';
import { pack } from '../../words/kilns.ts';
import { gradeNames } from '../../words/trade.ts';
import { byShelf } from '../load.ts';
import { nameOf } from './piece-in-hand.tsx';

interface Props {
  readonly rows: readonly PlaceRow[];
  readonly isLeft: (row: PlaceRow) => boolean;
  readonly onTake: (piece: string) => void;
  readonly onBack: () => void;
}

/** The whole load from the top shelf down: what is looked over leads to its story, what is not can be taken next. */
export const LoadView = ({ rows, isLeft, onTake, onBack }: Props) => (
  <section aria-label={words.load}>
    <h2>{words.load}</h2>
    <p>{words.loadHint}</p>
    {byShelf(rows).map(({ shelf, puts }) => (
      <div key={shelf} class="shelf-load">
        <h3>{shelf === null ? pack.noShelf : pack.onShelf(shelf)}</h3>
        <ul class="ledger">
          {puts.map((row) => (
            <li key={row.piece} class="whole">
              <div class="in-margin">
                <Mark mark={row.mark} />
              </div>
              <div class="line first-line">
                {isLeft(row) ? (
                  <button
                    type="button"
                    class="plain"
                    aria-label={words.take(nameOf(row))}
                    onClick={() => onTake(row.piece)}
                  >
                    {titleOf(row)}
                  </button>
                ) : (
                  <a class="reach" href={`/ware/${encodeURIComponent(row.piece)}`}>
                    {titleOf(row)}
                  </a>
                )}
                {!isLeft(row) && <span>{row.grade ? gradeNames[row.grade] : words.lookedOver}</span>}
              </div>
            </li>
          ))}
        </ul>
      </div>
    ))}
    <p class="buttons">
      <button type="button" onClick={onBack}>
        {words.back}
      </button>
    </p>
  </section>
);
