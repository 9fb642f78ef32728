/** What stands one step behind for any template: a drawing's pieces, the sizes of a set, words for the buyer. */
import type { Of } from '../../plugins/template-sheets/spec/spec.ts';
import { Choices } from '../parts/choices.tsx';
import { Field, TextField } from '../parts/field.tsx';
import { FoldOut } from '../parts/fold-out.tsx';
import { templates as words } from '../words/templates.ts';
import { NumberField } from './measures.tsx';
import { MOST_SIZES, type SizeDraft } from './sizes.ts';
import type { Words } from './use-making.ts';

interface SizesProps {
  readonly sizes: readonly SizeDraft[];
  readonly onSizes: (sizes: readonly SizeDraft[]) => void;
  readonly nested: boolean;
  readonly onNested: (nested: boolean) => void;
}

export function Sizes({ sizes, onSizes, nested, onNested }: SizesProps) {
  const change = (at: number, by: Partial<SizeDraft>) =>
    onSizes(sizes.map((size, each) => (each === at ? { ...size, ...by } : size)));
  return (
    <FoldOut summary={words.sizesNow(sizes.map(({ name }) => name))}>
      {() => (
        <>
          <p class="hint">{words.sizesHint}</p>
          {sizes.map((size, at) => (
            <div class="side-by-side" key={at}>
              <TextField
                label={words.sizeName(at + 1)}
                value={size.name}
                onValue={(name) => change(at, { name })}
                input={{ maxLength: 40, autocomplete: 'off' }}
              />
              <NumberField
                label={words.sizePercent(at + 1)}
                value={size.percent}
                onValue={(percent) => change(at, { percent })}
              />
              <button
                type="button"
                class="plain"
                aria-label={words.withoutSize(size.name)}
                onClick={() => onSizes(sizes.filter((_, each) => each !== at))}
              >
                {words.takeOut}
              </button>
            </div>
          ))}
          {sizes.length > 1 && (
            <Choices
              legend={words.onPaper}
              hint={words.onPaperHint}
              value={nested ? 'yes' : 'no'}
              onValue={(value) => onNested(value === 'yes')}
              options={Object.entries(words.nestings).map(([value, label]) => ({ value, label }))}
            />
          )}
          <p class="buttons">
            {sizes.length === 0 ? (
              <button type="button" onClick={() => onSizes(words.threeSizes)}>
                {words.makeSet}
              </button>
            ) : (
              <button
                type="button"
                disabled={sizes.length >= MOST_SIZES}
                onClick={() => onSizes([...sizes, { name: '', percent: '100' }])}
              >
                {words.addSize}
              </button>
            )}
          </p>
        </>
      )}
    </FoldOut>
  );
}

type DrawnPieces = Of<'drawing'>['pieces'];
interface PiecesProps {
  readonly pieces: DrawnPieces;
  readonly onPieces: (pieces: DrawnPieces) => void;
}

/** Names of drawn pieces, and how many are cut of each. */
export function PieceNames({ pieces, onPieces }: PiecesProps) {
  const change = (at: number, by: Partial<DrawnPieces[number]>) =>
    onPieces(pieces.map((piece, each) => (each === at ? { ...piece, ...by } : piece)));
  return (
    <FoldOut summary={words.piecesNow(pieces.length)}>
      {() =>
        pieces.map((piece, at) => (
          <div class="side-by-side" key={at}>
            <TextField
              label={words.pieceName(at + 1)}
              value={piece.name}
              onValue={(name) => change(at, { name })}
              input={{ maxLength: 80, autocomplete: 'off' }}
            />
            <NumberField
              label={words.pieceCount(at + 1)}
              value={String(piece.count ?? 1)}
              onValue={(count) => change(at, { count: Number(count) })}
            />
            <button
              type="button"
              class="plain"
              aria-label={words.withoutPiece(piece.name)}
              disabled={pieces.length === 1}
              onClick={() => onPieces(pieces.filter((_, each) => each !== at))}
            >
              {words.takeOut}
            </button>
          </div>
        ))
      }
    </FoldOut>
  );
}

interface WordsProps {
  readonly said: Words;
  readonly onSaid: (said: Words) => void;
}

/** Printed on the sheets. */
export const ForBuyer = ({ said, onSaid }: WordsProps) => (
  <FoldOut summary={words.forBuyerNow(said.licence !== '', said.howTo !== '')}>
    {() => (
      <>
        <TextField
          label={words.licence}
          hint={words.licenceHint}
          optional
          value={said.licence}
          onValue={(licence) => onSaid({ ...said, licence })}
          input={{ maxLength: 200, autocomplete: 'off' }}
        />
        <Field label={words.howTo} hint={words.howToHint} optional>
          {(attributes) => (
            <textarea
              {...attributes}
              rows={6}
              maxLength={3_000}
              value={said.howTo}
              onInput={(event) => onSaid({ ...said, howTo: event.currentTarget.value })}
            />
          )}
        </Field>
      </>
    )}
  </FoldOut>
);
