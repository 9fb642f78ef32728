import { useState } from 'preact/hooks';
import { SelectField, TextField } from '../parts/field.tsx';
import { handouts } from '../words/handouts.ts';
import { item as words } from '../words/items.ts';
import { amountText, habits, minorUnits } from '../words/numbers.ts';
import { order } from '../words/orders.ts';
import { type OfferedPaper, type PaperRef, paperKey, refOf, usePapers } from './of-paper.ts';
import { PieceField } from './piece-field.tsx';
import { RecordForm } from './record-form.tsx';
import type { ItemFacts } from './types.ts';

const NUMBERS = ['weight', 'sheets', 'leadDays', 'runOf'] as const;
const SIZES = ['length', 'width', 'thickness'] as const;
const TEXTS = ['content', 'hs', 'origin', 'licence'] as const;
type Draft = Readonly<Record<string, string>>;

const text = (value: unknown): string => (value === undefined ? '' : String(value));

function draftOf(facts: ItemFacts | undefined): Draft {
  const { price, size } = facts ?? {};
  return {
    name: facts?.name ?? '',
    kind: facts?.kind ?? 'template',
    piece: facts?.piece ?? '',
    paper: facts?.paper ? paperKey(facts.paper) : '',
    price: price ? amountText(price.amount, price.currency) : '',
    ...Object.fromEntries(NUMBERS.map((field) => [field, text(facts?.[field])])),
    ...Object.fromEntries(SIZES.map((field) => [field, text(size?.[field])])),
    ...Object.fromEntries(TEXTS.map((field) => [field, facts?.[field] ?? ''])),
  };
}

/** What is known of an item; a new one when none is given. */
export function ItemForm({ item, facts }: { readonly item?: string; readonly facts?: ItemFacts }) {
  const [draft, setDraft] = useState(() => draftOf(facts));
  const set = (field: string) => (value: string) => setDraft({ ...draft, [field]: value });
  const currency = facts?.price?.currency ?? habits.value.currency;
  const papers = usePapers().answer?.papers;
  const wish = () => {
    const read = inputOf(draft, currency);
    if ('missing' in read) return read;
    const paper = paperInput(draft, facts, papers);
    const command = item ? 'item.change' : 'item.add';
    const input = { ...(item ? { item } : {}), ...read.input, ...paper };
    const sentence = item ? words.changed : words.added(draft.name!.trim());
    return { wishes: [{ command, input }], sentence };
  };
  const number = (field: (typeof NUMBERS)[number] | (typeof SIZES)[number]) => (
    <TextField
      label={words[field]}
      type="number"
      value={draft[field]!}
      onValue={set(field)}
      optional
      input={{ min: 0, step: 'any', inputMode: 'decimal' }}
    />
  );
  return (
    <RecordForm
      submit={item ? words.changeSubmit : words.addSubmit}
      wish={wish}
      onDone={() => !item && setDraft(draftOf(undefined))}
    >
      <div class="side-by-side">
        <TextField label={words.name} value={draft.name!} onValue={set('name')} input={{ maxLength: 120 }} />
        <SelectField
          label={words.kind}
          value={draft.kind!}
          onValue={set('kind')}
          options={Object.entries(words.kinds).map(([value, label]) => ({ value, label }))}
        />
        <TextField
          label={`${words.price} (${currency})`}
          value={draft.price!}
          onValue={set('price')}
          optional
          input={{ inputMode: 'decimal', autocomplete: 'off' }}
        />
      </div>
      {fromPaper(draft.kind) && <TemplateField papers={papers} value={draft.paper!} onValue={set('paper')} />}
      {draft.kind === 'download' && !draft.paper && (
        <TextField
          label={handouts.licence}
          hint={handouts.licenceHint}
          value={draft.licence!}
          onValue={set('licence')}
          optional
          input={{ maxLength: 200 }}
        />
      )}
      {draft.kind === 'pot' && <PieceField value={draft.piece!} onValue={set('piece')} />}
      {draft.kind !== 'download' && (
        <div class="side-by-side">
          {number('weight')}
          {SIZES.map(number)}
        </div>
      )}
      <div class="side-by-side">
        {draft.kind === 'template' && number('sheets')}
        {draft.kind !== 'pot' && draft.kind !== 'download' && (
          <>
            {number('leadDays')}
            {number('runOf')}
          </>
        )}
      </div>
      {draft.kind !== 'download' && (
        <div class="side-by-side">
          <TextField label={words.content} value={draft.content!} onValue={set('content')} optional />
          <TextField label={words.hs} hint={words.hsHint} value={draft.hs!} onValue={set('hs')} optional />
          <TextField
            label={words.origin}
            hint={words.originHint}
            value={draft.origin!}
            onValue={(value) => set('origin')(value.toUpperCase())}
            optional
          />
        </div>
      )}
    </RecordForm>
  );
}

const fromPaper = (kind: string | undefined): boolean => kind === 'download' || kind === 'template';

interface TemplateProps {
  readonly papers?: readonly OfferedPaper[];
  readonly value: string;
  readonly onValue: (value: string) => void;
}

/** Which of the kept templates it comes from. */
function TemplateField({ papers, value, onValue }: TemplateProps) {
  if (papers?.length === 0)
    return (
      <p class="small">
        {handouts.keepTemplates} <a href="/templates">{handouts.toTemplates}</a>
      </p>
    );
  return (
    <SelectField
      label={handouts.template}
      hint={handouts.templateHint}
      value={value}
      onValue={onValue}
      none={handouts.noTemplate}
      options={(papers ?? []).map((paper) => ({ value: paperKey(paper), label: paper.title }))}
    />
  );
}

/** Only where another one was chosen: what is not offered any more stays as it was. */
function paperInput(
  draft: Draft,
  facts: ItemFacts | undefined,
  papers: readonly OfferedPaper[] | undefined,
): { readonly paper?: PaperRef | null } {
  const wanted = fromPaper(draft.kind) ? draft.paper! : '';
  const before = facts?.paper ? paperKey(facts.paper) : '';
  if (wanted === before) return {};
  const chosen = papers?.find((paper) => paperKey(paper) === wanted);
  if (chosen) return { paper: refOf(chosen) };
  return facts ? { paper: null } : {};
}

function inputOf(draft: Draft, currency: string): { readonly missing: string } | { readonly input: object } {
  if (!draft.name!.trim()) return { missing: words.missing };
  const amount = minorUnits(draft.price!, currency);
  if (draft.price!.trim() && amount === undefined) return { missing: order.wrongAmount };
  if (draft.kind === 'pot' && !draft.piece) return { missing: words.noPiece };
  const numbers = NUMBERS.flatMap((field) =>
    Number(draft[field]) > 0 ? [[field, Number(draft[field])]] : [],
  );
  const texts = TEXTS.flatMap((field) => (draft[field]?.trim() ? [[field, draft[field].trim()]] : []));
  const sizes = SIZES.map((field) => Number(draft[field]));
  const size = sizes.every((value) => value > 0)
    ? { size: { length: sizes[0], width: sizes[1], thickness: sizes[2] } }
    : {};
  return {
    input: {
      name: draft.name!.trim(),
      kind: draft.kind,
      ...Object.fromEntries(numbers),
      ...Object.fromEntries(texts),
      ...size,
      ...(amount === undefined ? {} : { price: { amount, currency } }),
      ...(draft.kind === 'pot' ? { piece: draft.piece } : {}),
    },
  };
}
