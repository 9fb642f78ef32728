import { useState } from 'preact/hooks';
import type { Problem } from '../api/client.ts';
import { record } from '../api/orders.ts';
import type { MaterialKind, MaterialRow, WordKind } from '../api/studio.ts';
import { type Materials as Known, useMaterials } from '../api/use-materials.ts';
import { Page } from '../app/page.tsx';
import { Choices } from '../parts/choices.tsx';
import { TextField } from '../parts/field.tsx';
import { ProblemSaid } from '../parts/problem.tsx';
import { PicturesOf } from '../pictures/of-thing.tsx';
import { materials as words } from '../words/materials.ts';
import { pictures } from '../words/pictures.ts';
import { shell } from '../words/shell.ts';
import { roleNames } from '../words/trade.ts';
import { draftOf } from './draft.ts';
import { MaterialForm } from './material-form.tsx';

const KINDS: readonly MaterialKind[] = ['clay', 'glaze', 'schedule', 'kiln'];

/** Clays, glazes, schedules, kilns, and the user's own words. */
export default function Materials() {
  const known = useMaterials();
  return (
    <Page title={words.title}>
      <p class="lead">{words.lead}</p>
      {!known.known && <p class="waiting">{shell.waiting}</p>}
      {known.known &&
        KINDS.map((kind) => (
          <Kind key={kind} kind={kind} rows={known.rows.filter((row) => row.kind === kind)} />
        ))}
      {known.known && <Words known={known} />}
    </Page>
  );
}

function Kind({ kind, rows }: { readonly kind: MaterialKind; readonly rows: readonly MaterialRow[] }) {
  return (
    <section class="part">
      <h2>{words[kind].many}</h2>
      {rows.length === 0 ? (
        <p class="soft">{words[kind].empty}</p>
      ) : (
        <ul class="ledger plain-ledger">
          {rows.map((row) => (
            <MaterialLine key={row.id} row={row} />
          ))}
        </ul>
      )}
      <details class="no-paper">
        <summary>{words[kind].add}</summary>
        <MaterialForm kind={kind} />
      </details>
    </section>
  );
}

/** What is known of it, in a few words. */
export function factsText(row: MaterialRow): string {
  const { facts } = row;
  const size = [facts.width, facts.depth, facts.height].filter((n) => typeof n === 'number');
  const range = [facts.coneLow, facts.coneHigh].filter(Boolean);
  return [
    facts.role && roleNames[facts.role as keyof typeof roleNames],
    facts.cone && `${words.cone.toLowerCase()} ${facts.cone}`,
    range.length > 0 && `${words.cone.toLowerCase()} ${range.join('–')}`,
    facts.shape && words.shapes[facts.shape as keyof typeof words.shapes],
    size.length > 0 && `${size.join(' × ')} mm`,
    facts.power && `${facts.power} kW`,
    facts.costly && words.costly.toLowerCase(),
    facts.fluid && words.fluidShort,
    row.version > 1 && words.version(row.version),
  ]
    .filter(Boolean)
    .join(' · ');
}

function MaterialLine({ row }: { readonly row: MaterialRow }) {
  const [open, setOpen] = useState(false);
  const [looking, setLooking] = useState(false);
  return (
    <li>
      <div class="line">
        <p class="first-line">
          <strong>{row.name}</strong>
          <a
            class="reach-line"
            href={`/ware?${row.kind}=${encodeURIComponent(row.id)}`}
            aria-label={`${words.wareOf}: ${row.name}`}
          >
            {words.wareOf}
          </a>
        </p>
        <p class="small soft">{factsText(row)}</p>
        <div>
          <details class="no-paper" onToggle={(event) => setLooking(event.currentTarget.open)}>
            <summary aria-label={`${pictures.title}: ${row.name}`}>
              {row.photos.length > 0 ? pictures.many(row.photos.length) : pictures.title}
            </summary>
            {looking && <PicturesOf to={`${row.kind}:${row.id}`} name={row.name} photos={row.photos} />}
          </details>
        </div>
        <details class="no-paper" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
          <summary>{words.change}</summary>
          {open && (
            <MaterialForm kind={row.kind} id={row.id} first={draftOf(row)} onDone={() => setOpen(false)} />
          )}
        </details>
      </div>
    </li>
  );
}

const WORD_KINDS: readonly WordKind[] = ['fault', 'repair', 'zone'];

function Words({ known }: { readonly known: Known }) {
  const [kind, setKind] = useState<WordKind>('fault');
  const [name, setName] = useState('');
  const [problem, setProblem] = useState<Problem>();
  const own = WORD_KINDS.flatMap((each) =>
    (known.words?.[each] ?? []).filter((word) => word.own).map((word) => ({ ...word, kind: each })),
  );
  const submit = async (event: Event) => {
    event.preventDefault();
    const sent = await record(
      [{ command: 'word.add', input: { kind, name: name.trim() } }],
      words.added(name.trim()),
    );
    setProblem(sent.problem);
    if (!sent.problem) setName('');
  };
  return (
    <section class="part">
      <h2>{words.words.many}</h2>
      {own.length === 0 ? (
        <p class="soft">{words.words.empty}</p>
      ) : (
        <ul class="ledger plain-ledger">
          {own.map((word) => (
            <li key={`${word.kind} ${word.id}`}>
              <div class="line">
                <strong>{word.name}</strong> <span class="soft small">{words.kinds[word.kind]}</span>
              </div>
            </li>
          ))}
        </ul>
      )}
      <details class="no-paper">
        <summary>{words.words.add}</summary>
        <form onSubmit={submit}>
          <Choices
            legend={words.kind}
            value={kind}
            onValue={(value) => setKind(value as WordKind)}
            options={WORD_KINDS.map((value) => ({ value, label: words.kinds[value] }))}
          />
          <TextField
            label={words.name}
            value={name}
            onValue={setName}
            input={{ maxLength: 120, required: true, autocomplete: 'off' }}
          />
          {problem && <ProblemSaid problem={problem} />}
          <p class="buttons">
            <button type="submit" class="main">
              {words.submit}
            </button>
          </p>
        </form>
      </details>
    </section>
  );
}
