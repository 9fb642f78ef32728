import { useState } from 'preact/hooks';
import type { Problem } from '../api/client.ts';
import { record } from '../api/orders.ts';
import { SelectField, TextField } from '../parts/field.tsx';
import { ProblemSaid } from '../parts/problem.tsx';
import { rateText } from '../words/numbers.ts';
import { templates as words } from '../words/templates.ts';
import { FromScan } from './from-scan.tsx';
import { FromSvg } from './from-svg.tsx';
import { Details, Measures, NumberField } from './measures.tsx';
import { ForBuyer, PieceNames, Sizes } from './more-of-it.tsx';
import { PaperChoice } from './paper-choice.tsx';
import { Said, Seen } from './seen.tsx';
import { type Kept, type Making, useMaking, type Way } from './use-making.ts';

interface Props {
  /** The one that is changed; a new one when absent. */
  readonly kept?: Kept;
  readonly onKept: () => void;
  /** Leaves it as it was. */
  readonly onLeave?: () => void;
}

export function Make({ kept, onKept, onLeave }: Props) {
  const making = useMaking(kept);
  const { way, words: own, made, drawing } = making;
  const [missing, setMissing] = useState(false);
  const [problem, setProblem] = useState<Problem>();
  const submit = async (event: Event) => {
    event.preventDefault();
    const name = own.name.trim();
    setMissing(!name);
    if (!name || !made || 'wrong' in made) return;
    const sent = await record([wish(kept, making)], words.wasKept(name));
    setProblem(sent.problem);
    if (!sent.problem) onKept();
  };
  return (
    <form onSubmit={submit} class="template-make">
      <TextField
        label={words.name}
        wrong={missing ? words.nameMissing : undefined}
        value={own.name}
        onValue={(name) => making.setWords({ ...own, name })}
        input={{ maxLength: 120, autocomplete: 'off' }}
      />
      <SelectField
        label={words.from}
        value={way}
        onValue={(to) => making.setWay(to as Way)}
        options={Object.entries(words.ways).map(([value, label]) => ({
          value,
          label,
        }))}
      />
      {way === 'measures' && <Measures draft={making.draft} onDraft={making.setDraft} />}
      {way === 'svg' && <FromSvg onBrought={making.bring} />}
      {way === 'scan' && <FromScan onBrought={making.bring} />}
      {drawing && drawing.said.length > 0 && <Said title={words.leftOut} lines={drawing.said} />}
      <div class="side-by-side">
        <Clay making={making} />
        <PaperChoice paper={making.paper} onPaper={making.setPaper} />
      </div>
      <div class="template-folds">
        {way === 'measures' && <Details draft={making.draft} onDraft={making.setDraft} />}
        {drawing?.spec && <PieceNames pieces={drawing.spec.pieces} onPieces={making.rename} />}
        <Sizes
          sizes={making.sizes}
          onSizes={making.setSizes}
          nested={making.nested}
          onNested={making.setNested}
        />
        <ForBuyer said={own} onSaid={making.setWords} />
      </div>
      {made && <Seen made={made} />}
      {problem && <ProblemSaid problem={problem} />}
      <p class="buttons">
        <button type="submit" class="main" disabled={!made || 'wrong' in made}>
          {kept ? words.keepChange : words.keep}
        </button>
        {onLeave && (
          <button type="button" onClick={onLeave}>
            {words.leave}
          </button>
        )}
      </p>
    </form>
  );
}

/** A change says all of it anew, what was not touched as well. */
function wish(kept: Kept | undefined, { words: own, made, clay }: Making) {
  const { licence, howTo } = own;
  const input = {
    ...(kept ? { template: kept.template } : {}),
    name: own.name.trim(),
    spec: made && 'spec' in made ? made.spec : undefined,
    ...(clay ? { clay } : {}),
    ...(licence.trim() ? { licence: licence.trim() } : {}),
    ...(howTo.trim() ? { howTo: howTo.trim() } : {}),
  };
  return { command: kept ? 'template.change' : 'template.draw', input };
}

/** A clay brings its shrinkage; it can be set by hand as well. */
function Clay({ making }: { readonly making: Making }) {
  const { clay, clays } = making;
  const options = clays.map((row) => ({
    value: row.id,
    label: `${row.name}, ${words.shrinks(rateText(row.facts.shrinkage as number))}`,
  }));
  // A clay that has no shrinkage written down, or is put away: it stays as it was.
  const known = clay === '' || options.some(({ value }) => value === clay);
  return (
    <>
      <SelectField
        label={words.clay}
        value={clay}
        onValue={making.choose}
        none={words.noClay}
        options={known ? options : [...options, { value: clay, label: clay }]}
      />
      <NumberField
        label={words.shrinkage}
        hint={words.clayHint}
        optional
        value={making.shrinks}
        onValue={making.setShrinks}
      />
    </>
  );
}
