import { useState } from 'preact/hooks';
import {
  FIRST_GRID,
  type LabelGrid,
  labelsOn,
  placesOf,
  sheetOf,
  wrongWith,
} from '../../plugins/shop-orders/label-grid.ts';
import { useReport } from '../api/use-report.ts';
import { Page } from '../app/page.tsx';
import { Shown } from '../parts/asked.tsx';
import { SelectField, TextField } from '../parts/field.tsx';
import { PaperLink } from '../parts/paper-link.tsx';
import { post } from '../words/post.ts';
import { labels as words } from '../words/shop.ts';
import './post.css';
import { RecordForm } from './record-form.tsx';
import type { PackedRow, ShopMore } from './types.ts';

/** The sheets in the drawer, where printing begins, and the labels of all that waits. */
export default function Labels() {
  const shop = useReport<never, ShopMore>('shop-orders/shop');
  const packed = useReport<PackedRow>('shop-orders/packed');
  const [start, setStart] = useState(1);
  return (
    <Page title={words.title} back={{ href: '/post', to: post.title }}>
      <p class="lead">{words.lead}</p>
      <Shown of={shop}>
        {({ more }) => (
          <Sheet
            key={JSON.stringify(more.facts.labels)}
            kept={more.facts.labels ?? FIRST_GRID}
            start={start}
            onStart={setStart}
          />
        )}
      </Shown>
      <Shown of={packed}>
        {({ rows }) =>
          rows.length === 0 ? (
            <p>{words.none}</p>
          ) : (
            <Print rows={rows} start={start} grid={shop.answer?.more.facts.labels ?? FIRST_GRID} />
          )
        }
      </Shown>
    </Page>
  );
}

const Print = ({
  rows,
  start,
  grid,
}: {
  readonly rows: readonly PackedRow[];
  readonly start: number;
  readonly grid: LabelGrid;
}) => {
  const first = Math.min(start, labelsOn(grid));
  return (
    <>
      <p>{words.sheets(Math.ceil((first - 1 + rows.length) / labelsOn(grid)))}</p>
      <p class="small soft">{words.trial}</p>
      <p>
        <PaperLink
          paper="shop-orders/address-labels"
          params={{ parcels: rows.map(({ parcel }) => parcel).join(','), start: String(first) }}
          title={words.print(rows.length)}
        />
      </p>
    </>
  );
};

const COUNTS = ['columns', 'rows'] as const;
const LENGTHS = ['width', 'height', 'left', 'top', 'gapX', 'gapY'] as const;
type Field = (typeof COUNTS)[number] | (typeof LENGTHS)[number];
type Draft = Readonly<Record<Field | 'paper', string>>;

const round = (mm: number): string => String(Math.round(mm * 100) / 100);

const draftOf = (grid: LabelGrid): Draft => ({
  paper: grid.paper,
  columns: String(grid.columns),
  rows: String(grid.rows),
  width: round(grid.width),
  height: round(grid.height),
  left: round(grid.left),
  top: round(grid.top),
  gapX: round(grid.across - grid.width),
  gapY: round(grid.down - grid.height),
});

/** What is typed as a grid; undefined while a length is none. */
function gridOf(draft: Draft): LabelGrid | undefined {
  const read = (field: Field) => {
    const text = draft[field].trim().replace(',', '.');
    return /^\d+(\.\d+)?$/.test(text) ? Number(text) : Number.NaN;
  };
  const [width, height] = [read('width'), read('height')];
  const grid = {
    paper: draft.paper as LabelGrid['paper'],
    ...{ columns: read('columns'), rows: read('rows'), width, height, left: read('left'), top: read('top') },
    across: width + read('gapX'),
    down: height + read('gapY'),
  };
  const whole = Number.isInteger(grid.columns) && Number.isInteger(grid.rows) && grid.columns * grid.rows > 0;
  return whole && Object.values(grid).every((it) => !Number.isNaN(it)) ? grid : undefined;
}

interface SheetProps {
  readonly kept: LabelGrid;
  readonly start: number;
  readonly onStart: (start: number) => void;
}

function Sheet({ kept, start, onStart }: SheetProps) {
  const [draft, setDraft] = useState(() => draftOf(kept));
  const grid = gridOf(draft);
  const wrong = grid ? wrongWith(grid) : { sentence: words.wrongNumber };
  const set = (field: Field | 'paper') => (value: string) => setDraft({ ...draft, [field]: value });
  const number = (field: Field) => (
    <TextField
      key={field}
      label={words[field]}
      value={draft[field]}
      onValue={set(field)}
      input={{ inputMode: 'decimal', autocomplete: 'off', maxLength: 8 }}
    />
  );
  const roll = draft.paper === 'one';
  return (
    <div class="label-sheet">
      <RecordForm
        now
        submit={words.save}
        wish={() =>
          wrong || !grid
            ? { missing: wrong?.sentence ?? words.wrongNumber }
            : { wishes: [{ command: 'shop.set', input: { labels: grid } }], sentence: words.saved }
        }
      >
        <SelectField
          label={words.paper}
          value={draft.paper}
          onValue={set('paper')}
          options={Object.entries(words.papers).map(([value, label]) => ({ value, label }))}
        />
        {!roll && <div class="side-by-side">{COUNTS.map(number)}</div>}
        <div class="side-by-side">{(roll ? LENGTHS.slice(0, 2) : LENGTHS).map(number)}</div>
      </RecordForm>
      <div>
        {grid && !wrong && <Preview grid={grid} start={start} onStart={onStart} />}
        {wrong && (
          <p class="wrong" role="status">
            {wrong.sentence}
          </p>
        )}
        {grid && !wrong && !roll && (
          <TextField
            label={words.begin}
            hint={words.beginHint}
            type="number"
            value={String(Math.min(start, labelsOn(grid)))}
            onValue={(value) => onStart(Math.max(1, Math.min(Number(value) || 1, labelsOn(grid))))}
            input={{ min: 1, max: labelsOn(grid), inputMode: 'numeric' }}
          />
        )}
      </div>
    </div>
  );
}

/** Drawn to scale; a label that is touched is where printing begins. */
function Preview({ grid, start, onStart }: Omit<SheetProps, 'kept'> & { readonly grid: LabelGrid }) {
  const sheet = sheetOf(grid);
  const press = (n: number) => (event: KeyboardEvent) => {
    if (event.key !== 'Enter' && event.key !== ' ') return;
    event.preventDefault();
    onStart(n);
  };
  return (
    <fieldset class="label-preview">
      <legend class="unseen">{words.preview}</legend>
      <svg viewBox={`-1 -1 ${sheet.width + 2} ${sheet.height + 2}`}>
        <title>{words.preview}</title>
        <rect class="sheet" width={sheet.width} height={sheet.height} />
        {placesOf(grid).map(([x, y], at) => (
          // biome-ignore lint/a11y/useSemanticElements: a button cannot stand in a drawing
          <g
            key={`${x} ${y}`}
            role="button"
            tabIndex={0}
            aria-label={words.beginAt(at + 1)}
            aria-pressed={at + 1 === start}
            class={at + 1 < start ? 'gone' : at + 1 === start ? 'first' : ''}
            onClick={() => onStart(at + 1)}
            onKeyDown={press(at + 1)}
          >
            <rect x={x} y={y} width={grid.width} height={grid.height} />
            <text x={x + grid.width / 2} y={y + grid.height / 2} font-size={Math.min(12, grid.height / 2)}>
              {at + 1}
            </text>
          </g>
        ))}
      </svg>
    </fieldset>
  );
}
