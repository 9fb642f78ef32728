import './post.css';
import { useState } from 'preact/hooks';
import { CountField } from '../parts/count-field.tsx';
import { FoldOut } from '../parts/fold-out.tsx';
import { handouts as words } from '../words/handouts.ts';
import { type PaperRef, paperKey, printRun } from './of-paper.ts';
import { PrintSize } from './print-size.tsx';
import { RecordForm } from './record-form.tsx';
import type { ItemRow } from './types.ts';

interface SoldProps {
  readonly paper: PaperRef;
  /** Of the shop; undefined until they are there. */
  readonly items?: readonly ItemRow[];
}

/** The items of the shop that come from this paper, with their stock; a print run raises it. */
export function SoldAs({ paper, items: all }: SoldProps) {
  if (!all) return null;
  const items = all.filter((row) => row.paper && paperKey(row.paper) === paperKey(paper));
  if (items.length === 0)
    return (
      <p class="small soft no-paper">
        {words.notSold} <a href="/post/items">{words.sell}</a>
      </p>
    );
  const printed = items.filter((row) => row.kind !== 'download' && row.kind !== 'pot');
  return (
    <>
      <p class="sold-as small">
        <span class="soft">{words.soldAs}: </span>
        {items.map((row) => (
          <a key={row.item} href={row.behind}>
            {said(row)}
          </a>
        ))}
      </p>
      {printed.map((row) => (
        <FoldOut key={row.item} summary={words.runOf(row.name)}>
          {() => <PrintRun item={row.item} name={row.name} paper={paper} />}
        </FoldOut>
      ))}
    </>
  );
}

const said = ({ kind, name, stock }: ItemRow): string =>
  kind === 'download'
    ? words.asFile(name)
    : stock === null
      ? words.notCounted(name)
      : words.inStock(name, stock);

interface RunProps {
  readonly item: string;
  readonly name: string;
  readonly paper: PaperRef;
}

function PrintRun({ item, name, paper }: RunProps) {
  const [count, setCount] = useState(10);
  const [size, setSize] = useState('A4');
  return (
    <RecordForm
      submit={words.runSubmit}
      wish={() => ({
        wishes: printRun(item, count, paper, size),
        sentence: words.runDone(count, name),
      })}
    >
      <div class="side-by-side">
        <CountField label={words.run} value={count} onValue={setCount} min={1} />
        <PrintSize paper={paper} size={size} onSize={setSize} />
      </div>
    </RecordForm>
  );
}
