import './templates.css';
import { useEffect, useRef, useState } from 'preact/hooks';
import { paperAddress } from '../api/client.ts';
import { record } from '../api/orders.ts';
import { useReport } from '../api/use-report.ts';
import { Page } from '../app/page.tsx';
import { Shown } from '../parts/asked.tsx';
import { SelectField } from '../parts/field.tsx';
import { FoldOut } from '../parts/fold-out.tsx';
import { templatePaper } from '../post/of-paper.ts';
import { SoldAs } from '../post/sold-as.tsx';
import type { ItemRow } from '../post/types.ts';
import { templates as words } from '../words/templates.ts';
import { Make } from './make.tsx';
import { PaperChoice } from './paper-choice.tsx';
import type { Kept } from './use-making.ts';

interface Row {
  readonly template: string;
  readonly name: string;
  readonly version: number;
  readonly downloads: number;
  readonly printed: number;
  readonly putAway: number;
  readonly sizes: number;
  readonly nested: number;
}

/** Templates that are kept, and the making of new ones. */
export default function Templates() {
  const asked = useReport<Row>('template-sheets/templates');
  const items = useReport<ItemRow>('shop-orders/items').answer?.rows;
  const [changing, setChanging] = useState<string>();
  const [turn, next] = useState(0);
  const kept = useReport<unknown, Kept>(changing && 'template-sheets/template', { template: changing });
  const changed = changing && kept.answer?.more.template === changing ? kept.answer.more : undefined;
  const heading = useRef<HTMLHeadingElement>(null);
  // The form stands below all that is kept: it comes to the eye, and to the keyboard.
  useEffect(() => changed && heading.current?.focus(), [changed?.template]);
  const done = () => {
    setChanging(undefined);
    next(turn + 1);
  };
  return (
    <Page title={words.title}>
      <p class="lead">{words.lead}</p>
      <Shown of={asked}>
        {({ rows }) =>
          rows.length === 0 ? (
            <p class="soft">{words.empty}</p>
          ) : (
            <section class="part">
              <h2>{words.kept}</h2>
              <List rows={rows.filter((row) => !row.putAway)} items={items} onChange={setChanging} />
              <Away rows={rows.filter((row) => row.putAway)} onChange={setChanging} />
            </section>
          )
        }
      </Shown>
      <section class="part no-paper">
        <h2 ref={heading} tabIndex={-1}>
          {changed ? words.change(changed.name) : words.make}
        </h2>
        <Make
          key={`${changed?.template} ${turn}`}
          kept={changed}
          onKept={done}
          onLeave={changed ? done : undefined}
        />
      </section>
    </Page>
  );
}

interface ListProps {
  readonly rows: readonly Row[];
  /** Of the shop; undefined until they are there. */
  readonly items?: readonly ItemRow[];
  readonly onChange: (template: string) => void;
}

const List = ({ rows, items, onChange }: ListProps) => (
  <ul class="ledger plain-ledger">
    {rows.map((row) => (
      <Line key={row.template} row={row} items={items} onChange={() => onChange(row.template)} />
    ))}
  </ul>
);

/** Changing one brings it back. */
const Away = ({ rows, onChange }: ListProps) =>
  rows.length === 0 ? null : (
    <FoldOut summary={words.away(rows.length)}>
      {() => (
        <ul>
          {rows.map(({ template, name }) => (
            <li key={template}>
              <button type="button" class="plain" onClick={() => onChange(template)}>
                {words.bringBack(name)}
              </button>
            </li>
          ))}
        </ul>
      )}
    </FoldOut>
  );

interface LineProps {
  readonly row: Row;
  readonly items?: readonly ItemRow[];
  readonly onChange: () => void;
}

function Line({ row, items, onChange }: LineProps) {
  const [paper, setPaper] = useState('A4');
  const [nested, setNested] = useState(row.nested ? 'yes' : 'no');
  const { template, name } = row;
  const asked = { template, paper, ...(row.sizes > 1 ? { nested } : {}) };
  const putAway = () =>
    record([{ command: 'template.put-away', input: { template } }], words.wasPutAway(name));
  return (
    <li id={template} ref={comesToEye(template)}>
      <div class="line">
        <strong>{name}</strong>{' '}
        <span class="soft small">
          {words.version(row.version)} · {words.gone(row.downloads, row.printed)}
        </span>
        <div class="side-by-side no-paper">
          <PaperChoice of={name} paper={paper} onPaper={setPaper} />
          {row.sizes > 1 && (
            <SelectField
              label={`${words.onPaper}: ${name}`}
              value={nested}
              onValue={setNested}
              options={Object.entries(words.nestings).map(([value, label]) => ({ value, label }))}
            />
          )}
          <p class="buttons">
            <a
              class="button"
              href={paperAddress('template-sheets/kept', asked)}
              target="_blank"
              rel="noreferrer"
              aria-label={words.pdfOf(name, paper)}
            >
              {words.pdf}
            </a>
            <button type="button" aria-label={words.change(name)} onClick={onChange}>
              {words.changeIt}
            </button>
            <button type="button" class="plain" aria-label={words.putAwayOne(name)} onClick={putAway}>
              {words.putAway}
            </button>
          </p>
        </div>
        <SoldAs paper={templatePaper(template)} items={items} />
      </div>
    </li>
  );
}

/** The one that the address names, where somebody comes from the item that it is sold as. */
const comesToEye = (template: string) => (line: HTMLLIElement | null) => {
  if (line && location.hash === `#${template}` && line.dataset.seen === undefined) {
    line.dataset.seen = 'yes';
    line.scrollIntoView();
  }
};
