import { useState } from 'preact/hooks';
import type { Problem } from '../api/client.ts';
import { newId } from '../api/ids.ts';
import { forget, record } from '../api/orders.ts';
import { nameText, type PersonRow } from '../api/studio.ts';
import { useReport } from '../api/use-report.ts';
import { Page } from '../app/page.tsx';
import { Shown } from '../parts/asked.tsx';
import { Empty } from '../parts/empty.tsx';
import { TextField } from '../parts/field.tsx';
import { ProblemSaid } from '../parts/problem.tsx';
import { people as words } from '../words/materials.ts';
import { pieces } from '../words/numbers.ts';
import { named, ownerNames } from '../words/trade.ts';

/** Whose ware is here, besides the studio's own. */
export default function People() {
  const asked = useReport<PersonRow>('studio/people');
  return (
    <Page title={words.title}>
      <p class="lead">{words.lead}</p>
      <AddPerson />
      <Shown of={asked}>
        {({ rows }) =>
          rows.length === 0 ? (
            <Empty what={words.empty} />
          ) : (
            <ul class="ledger plain-ledger part">
              {rows.map((row) => (
                <PersonLine key={row.person} row={row} />
              ))}
            </ul>
          )
        }
      </Shown>
    </Page>
  );
}

function AddPerson() {
  const [name, setName] = useState('');
  const [problem, setProblem] = useState<Problem>();
  const [missing, setMissing] = useState(false);
  const submit = async (event: Event) => {
    event.preventDefault();
    setMissing(!name.trim());
    if (!name.trim()) return;
    const sent = await record(
      [{ command: 'person.add', input: { person: newId(), name: name.trim() } }],
      words.added,
    );
    setProblem(sent.problem);
    if (!sent.problem) setName('');
  };
  return (
    <form class="no-paper" onSubmit={submit}>
      <TextField
        label={words.name}
        hint={words.nameHint}
        wrong={missing ? words.missing : undefined}
        value={name}
        onValue={setName}
        input={{ maxLength: 200, autocomplete: 'off' }}
      />
      {problem && <ProblemSaid problem={problem} />}
      <p class="buttons">
        <button type="submit" class="main">
          {words.submit}
        </button>
      </p>
    </form>
  );
}

function PersonLine({ row }: { readonly row: PersonRow }) {
  const [problem, setProblem] = useState<Problem>();
  const name = row.forgotten ? words.forgotten : (nameText(row.name) ?? words.forgotten);
  const roles = row.roles
    .split(',')
    .filter(Boolean)
    .map((role) => named(ownerNames, role))
    .join(', ');
  const erase = async () => {
    setProblem((await forget(row.person, words.forgotDone)).problem);
  };
  return (
    <li>
      <div class="line">
        <p class="first-line">
          <strong class={row.forgotten ? 'soft' : undefined}>{name}</strong>
          {row.pieces > 0 ? (
            <a href={row.ware}>{pieces(row.pieces)}</a>
          ) : (
            <span class="soft">{words.none}</span>
          )}
        </p>
        {roles && <p class="small soft">{roles}</p>}
        {!row.forgotten && (
          <details class="no-paper">
            <summary>{words.forget}</summary>
            <p class="prose">{words.forgetWhy}</p>
            {problem && <ProblemSaid problem={problem} />}
            <p class="buttons">
              <button type="button" onClick={erase}>
                {words.forgetSubmit}
              </button>
            </p>
          </details>
        )}
      </div>
    </li>
  );
}
