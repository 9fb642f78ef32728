import './pack.css';
import { useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import { FIRING_ROLES, type FiringRole, FURNITURE } from '../../server/contract/trade.ts';
import type { Problem } from '../api/client.ts';
import { newId } from '../api/ids.ts';
import { record } from '../api/orders.ts';
import type { FiringMore, KilnFacts, PlaceRow } from '../api/studio.ts';
import { useMaterials } from '../api/use-materials.ts';
import { useReport } from '../api/use-report.ts';
import { Page } from '../app/page.tsx';
import { Caution } from '../parts/caution.tsx';
import { Choices, Several } from '../parts/choices.tsx';
import { CountField } from '../parts/count-field.tsx';
import { Empty } from '../parts/empty.tsx';
import { SelectField, TextField } from '../parts/field.tsx';
import { ProblemSaid } from '../parts/problem.tsx';
import { useWhen } from '../parts/when.tsx';
import { kilns, pack as words } from '../words/kilns.ts';
import { shortDayText, today } from '../words/numbers.ts';
import { furnitureNames, named, roleNames } from '../words/trade.ts';
import { ChooseWare } from './choose-ware.tsx';
import { type Load, piecesIn, placesOf, toggle } from './load.ts';
import { LoadList } from './load-list.tsx';

const RAW: readonly string[] = ['made', 'leather-hard'];

const isRole = (text: string | undefined): text is FiringRole => FIRING_ROLES.includes(text as FiringRole);

/** Choose the kiln, then touch piece after piece; shelf and furniture stay as they were set. */
export default function Pack() {
  const { query, route } = useLocation();
  const materials = useMaterials();
  const existing = useReport<PlaceRow, FiringMore>(query.firing && 'studio/firing', {
    firing: query.firing,
  }).answer?.more.firing;
  const [made] = useState(() => newId());
  const [choice, choose] = useState<{ kiln?: string; role?: FiringRole; schedule?: string; label?: string }>(
    {},
  );
  const [load, setLoad] = useState<Load>([]);
  const [shelf, setShelf] = useState(1);
  const [under, setUnder] = useState<readonly string[]>([]);
  const [problem, setProblem] = useState<Problem>();
  const [missing, setMissing] = useState<string>();
  const when = useWhen();

  const kilnChoices = materials.of('kiln');
  const kiln = existing?.kiln ?? choice.kiln ?? (kilnChoices.length === 1 ? kilnChoices[0]!.value : '');
  const role: FiringRole = existing?.role ?? choice.role ?? (isRole(query.role) ? query.role : 'glaze');
  const schedule = existing?.schedule ?? choice.schedule ?? '';
  const kilnName = kiln ? materials.name('kiln', kiln) : '';
  const firing = query.firing ?? made;
  const schedules = materials.rows.filter(
    (row) => row.kind === 'schedule' && (!row.facts.role || row.facts.role === role),
  );
  const facts = materials.rows.find((row) => row.kind === 'kiln' && row.id === kiln)?.facts as
    | KilnFacts
    | undefined;
  const shelves = facts?.shelves ?? 40;

  const submit = async (event: Event) => {
    event.preventDefault();
    if (!kiln) return setMissing(words.missingKiln);
    if (load.length === 0) return setMissing(words.missingPieces);
    setMissing(undefined);
    const day = shortDayText(when.happenedAt.happenedAt ?? today());
    const label =
      existing?.label ?? (choice.label?.trim() || words.labelMade(roleNames[role], kilnName, day));
    const input = { firing, label, kiln, role, ...(schedule ? { schedule } : {}), places: placesOf(load) };
    const where = `/kilns/${encodeURIComponent(firing)}`;
    const sent = await record(
      [{ command: 'firing.pack', input, ...when.happenedAt }],
      words.done(piecesIn(load), kilnName),
      where,
    );
    setProblem(sent.problem);
    if (!sent.problem) route(where);
  };

  if (materials.known && kilnChoices.length === 0)
    return (
      <Page title={words.title} back={{ href: '/kilns', to: kilns.title }}>
        <Empty what={kilns.noKilns}>
          <a href="/materials">{kilns.addKiln}</a>.
        </Empty>
      </Page>
    );
  return (
    <Page title={existing ? words.more : words.title} back={{ href: '/kilns', to: kilns.title }} atKiln>
      <form onSubmit={submit}>
        {existing ? (
          <p class="lead">{existing.label ?? kilnName}</p>
        ) : (
          <>
            <Choices
              legend={words.kiln}
              value={kiln}
              onValue={(value) => choose({ ...choice, kiln: value })}
              options={kilnChoices}
            />
            <Choices
              legend={words.role}
              value={role}
              onValue={(value) => {
                choose({ ...choice, role: value as FiringRole, schedule: '' });
                setLoad([]);
              }}
              options={FIRING_ROLES.map((value) => ({ value, label: roleNames[value] }))}
            />
            <div class="side-by-side">
              <SelectField
                label={words.schedule}
                value={schedule}
                onValue={(value) => choose({ ...choice, schedule: value })}
                options={schedules.map((row) => ({ value: row.id, label: row.name }))}
                none={words.scheduleNone}
              />
              <TextField
                label={words.label}
                hint={words.labelHint}
                value={choice.label ?? ''}
                onValue={(label) => choose({ ...choice, label })}
                input={{ maxLength: 120, autocomplete: 'off' }}
              />
            </div>
          </>
        )}
        <div class="pack-shelf">
          <CountField
            label={words.shelf}
            hint={words.shelfHint}
            value={shelf}
            onValue={setShelf}
            min={1}
            max={shelves}
          />
          <Several
            legend={words.furniture}
            values={under}
            onValues={setUnder}
            options={FURNITURE.map((value) => ({ value, label: named(furnitureNames, value) }))}
          />
        </div>
        <ChooseWare
          role={role}
          load={load}
          first={query.piece}
          onToggle={(row) => setLoad(toggle(load, row, shelf, under))}
          shelf={shelf}
        />
        <LoadList load={load} onLoad={setLoad} shelves={shelves} kiln={facts} />
        {load.some((put) => RAW.includes(put.stage)) && <Caution lines={[words.damp]} />}
        {when.field}
        {missing && (
          <p class="problem" role="alert">
            {missing}
          </p>
        )}
        {problem && <ProblemSaid problem={problem} />}
        <p class="buttons">
          <button type="submit" class="main">
            {words.submit(piecesIn(load))}
          </button>
        </p>
      </form>
    </Page>
  );
}
