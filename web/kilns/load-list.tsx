import { FURNITURE } from '../../server/contract/trade.ts';
import type { KilnFacts } from '../api/studio.ts';
import { Several } from '../parts/choices.tsx';
import { CountField } from '../parts/count-field.tsx';
import { TextField } from '../parts/field.tsx';
import { FoldOut } from '../parts/fold-out.tsx';
import { Mark } from '../parts/mark.tsx';
import { titleOf } from '../ware/ware-list.tsx';
import { pack as words } from '../words/kilns.ts';
import { furnitureNames, named } from '../words/trade.ts';
import { KilnSide } from './kiln-side.tsx';
import { byShelf, change, type Load, type Put, piecesIn } from './load.ts';

interface Props {
  readonly load: Load;
  readonly onLoad: (load: Load) => void;
  readonly shelves: number;
  readonly kiln: KilnFacts | undefined;
}

/** The load by shelf, from the top; each place can be changed or taken off. */
export function LoadList({ load, onLoad, shelves, kiln }: Props) {
  const shelved = byShelf(load);
  return (
    <section class="part">
      <h2>{words.load}</h2>
      {load.length === 0 ? (
        <p class="soft">{words.loadEmpty}</p>
      ) : (
        <>
          <p role="status">{words.loadSentence(piecesIn(load), shelved.length)}</p>
          <KilnSide places={load} kiln={kiln} />
          {shelved.map(({ shelf, puts }) => (
            <div key={shelf} class="shelf-load">
              <h3>{words.onShelf(shelf!)}</h3>
              <ul class="ledger">
                {puts.map((put) => (
                  <PlaceLine
                    key={put.piece}
                    put={put}
                    shelves={shelves}
                    onChange={(by) => onLoad(change(load, put.piece, by))}
                    onOut={() => onLoad(load.filter((each) => each !== put))}
                  />
                ))}
              </ul>
            </div>
          ))}
        </>
      )}
    </section>
  );
}

interface LineProps {
  readonly put: Put;
  readonly shelves: number;
  readonly onChange: (by: Partial<Put>) => void;
  readonly onOut: () => void;
}

function PlaceLine({ put, shelves, onChange, onOut }: LineProps) {
  const said = [put.position, ...put.furniture.map((id) => named(furnitureNames, id))]
    .filter(Boolean)
    .join(', ');
  return (
    <li>
      <div class="in-margin">
        <Mark mark={put.mark} />
      </div>
      <div class="line">
        <p>
          {titleOf(put)} {said && <span class="soft small">{said}</span>}
        </p>
        <FoldOut summary={words.change}>
          {() => (
            <>
              {put.of > 1 && (
                <CountField
                  label={words.count}
                  value={put.count}
                  onValue={(count) => onChange({ count })}
                  min={1}
                  max={put.of}
                />
              )}
              <CountField
                label={words.placeShelf}
                value={put.shelf}
                onValue={(shelf) => onChange({ shelf })}
                min={1}
                max={shelves}
              />
              <TextField
                label={words.position}
                hint={words.positionHint}
                value={put.position}
                onValue={(position) => onChange({ position })}
                input={{ maxLength: 40 }}
              />
              <Several
                legend={words.under}
                values={put.furniture}
                onValues={(furniture) => onChange({ furniture })}
                options={FURNITURE.map((value) => ({ value, label: named(furnitureNames, value) }))}
              />
              <p class="buttons">
                <button type="button" onClick={onOut}>
                  {words.out}
                </button>
              </p>
            </>
          )}
        </FoldOut>
      </div>
    </li>
  );
}
