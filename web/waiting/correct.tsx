import { useState } from 'preact/hooks';
import { clockText } from '../api/moments.ts';
import { outboxHere } from '../api/offline.ts';
import { useMaterials } from '../api/use-materials.ts';
import { useMarks } from '../find/use-marks.ts';
import type { Unsent } from '../outbox/unsent.ts';
import { CountField } from '../parts/count-field.tsx';
import { NoteField, SelectField, TextField } from '../parts/field.tsx';
import { FoldOut } from '../parts/fold-out.tsx';
import { MoneyField, readMoney } from '../parts/money-field.tsx';
import { useWhen } from '../parts/when.tsx';
import { amountText, sentenceCase } from '../words/numbers.ts';
import { gradeNames } from '../words/trade.ts';
import { waitingWords as words } from '../words/waiting.ts';
import { type Correctable, complete, correctable, corrected, filled } from './correctable.ts';
import { newOrders, type Part, partsIn } from './decisions.ts';

/** What was noted, to be set right and sent anew: which piece, what was seen and where, how many, what it costs, when. */
export const Correct = ({ entry }: { readonly entry: Unsent }) => (
  <FoldOut summary={words.correct}>{() => <Fields entry={entry} />}</FoldOut>
);

function Fields({ entry }: { readonly entry: Unsent }) {
  const [input, setInput] = useState(() => complete(entry.command, entry.input));
  /** Fields of which what is typed means nothing, by their place. */
  const [wrong, setWrong] = useState<ReadonlySet<string>>(new Set());
  const when = useWhen();
  const parts = partsIn(entry);
  const send = async () => {
    const here = await outboxHere();
    // A part is there only since the lot was parted: of it, it is said now.
    const now = parts.length > 0 ? { clock: clockText(new Date()), happenedAt: undefined } : {};
    const change = {
      ...now,
      input: filled(input) as object,
      sentence: words.correctedSentence(entry.sentence),
      ...when.happenedAt,
    };
    await here?.outbox.leaveOut(entry.id, words.corrected, newOrders(entry, [], change));
  };
  const set = (field: Correctable) => (value: unknown) => {
    const place = field.place.join('.');
    const others = [...wrong].filter((each) => each !== place);
    setWrong(new Set(value === undefined ? [...others, place] : others));
    if (value !== undefined) setInput(corrected(input, field.place, value));
  };
  return (
    <>
      {correctable(entry.command, input).map((field) => (
        <OneField key={field.place.join('.')} field={field} parts={parts} onValue={set(field)} />
      ))}
      {when.field}
      <p class="buttons">
        <button type="button" disabled={wrong.size > 0} onClick={() => void send()}>
          {words.sendCorrected}
        </button>
      </p>
    </>
  );
}

interface FieldProps {
  readonly field: Correctable;
  readonly parts: readonly Part[];
  /** undefined: what is typed means nothing. */
  readonly onValue: (value: unknown) => void;
}

function OneField({ field, parts, onValue }: FieldProps) {
  const materials = useMaterials();
  const { as, name, place, value } = field;
  // Of several parts, which one it is about.
  const nth = place.findLast((step) => typeof step === 'number');
  const label = words.field(name, typeof nth === 'number' ? nth + 1 : undefined);
  if (as === 'piece' && parts.length > 0)
    return (
      <SelectField
        label={words.whichPart}
        value={String(value)}
        onValue={onValue}
        options={parts.map(({ piece, count, grade }) => ({ value: piece, label: words.part(count, grade) }))}
      />
    );
  if (as === 'piece') return <PieceField label={label} piece={String(value)} onValue={onValue} />;
  if (as === 'money') return <Price label={label} value={value as { amount: number }} onValue={onValue} />;
  if (as === 'count')
    return (
      <CountField
        label={label}
        value={Number(value)}
        onValue={onValue}
        min={name === 'count' || name === 'shelf' ? 1 : 0}
      />
    );
  if (as === 'words')
    return name === 'note' ? (
      <NoteField label={label} value={String(value)} onValue={onValue} />
    ) : (
      <TextField label={label} value={String(value)} onValue={onValue} />
    );
  const options =
    as === 'grade'
      ? Object.entries(gradeNames).map(([grade, said]) => ({ value: grade, label: sentenceCase(said) }))
      : materials.of(as);
  return (
    <SelectField
      label={label}
      value={String(value)}
      onValue={onValue}
      options={options}
      {...(as === 'zone' ? { none: words.zoneNone } : {})}
    />
  );
}

const tidy = (text: string): string => text.toUpperCase().replace(/[\s-]+/g, '');

interface PieceProps {
  readonly label: string;
  readonly piece: string;
  readonly onValue: (piece: string | undefined) => void;
}

/** By its foot mark; a piece without one stays the one it is. */
function PieceField({ label, piece, onValue }: PieceProps) {
  const marks = useMarks(true);
  const [typed, setTyped] = useState<string>();
  const now = marks.find((marked) => marked.piece === piece);
  const meant = (text: string) => marks.find(({ mark }) => tidy(mark) === tidy(text))?.piece;
  const unknown = typed !== undefined && meant(typed) === undefined;
  return (
    <TextField
      label={label}
      hint={words.pieceHint}
      wrong={unknown ? words.noSuchMark : undefined}
      value={typed ?? now?.mark ?? ''}
      onValue={(text) => {
        setTyped(text);
        onValue(meant(text));
      }}
      input={{ autocomplete: 'off', autocapitalize: 'characters', spellcheck: false }}
    />
  );
}

interface PriceProps {
  readonly label: string;
  readonly value: { readonly amount: number };
  readonly onValue: (value: unknown) => void;
}

function Price({ label, value, onValue }: PriceProps) {
  const [typed, setTyped] = useState(() => amountText(value.amount));
  return (
    <MoneyField
      label={label}
      value={typed}
      onValue={(text) => {
        setTyped(text);
        onValue(readMoney(text));
      }}
    />
  );
}
