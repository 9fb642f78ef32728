import { useEffect, useRef, useState } from 'preact/hooks';
import type { FiringRole, Stage } from '../../server/contract/trade.ts';
import { PACKING } from '../../server/studio/piece/moves.ts';
import { nameText, type Paged, type WareRow } from '../api/studio.ts';
import { useReport } from '../api/use-report.ts';
import { TextField } from '../parts/field.tsx';
import { Mark } from '../parts/mark.tsx';
import { titleOf } from '../ware/ware-list.tsx';
import { pack as words } from '../words/kilns.ts';
import { sentenceCase } from '../words/numbers.ts';
import { stageNames } from '../words/trade.ts';
import type { Load } from './load.ts';

/** Stages whose ware is looked for first. */
const USUAL: Readonly<Record<FiringRole, readonly Stage[]>> = {
  bisque: ['bone-dry', 'leather-hard', 'made'],
  glaze: ['glazed'],
  lustre: ['graded'],
  other: ['bone-dry', 'bisque-fired'],
};

interface Props {
  readonly role: FiringRole;
  readonly load: Load;
  /** A piece to be put in at once. */
  readonly first?: string;
  readonly shelf: number;
  readonly onToggle: (row: WareRow) => void;
}

/** Ware that this firing takes, by stage; a touch puts it on the shelf that is being packed. */
export function ChooseWare({ role, load, first, shelf, onToggle }: Props) {
  const [words_, setWords] = useState('');
  const [others, showOthers] = useState(false);
  const usual = USUAL[role];
  const rest = PACKING[role].from.filter((stage) => !usual.includes(stage));
  const shared = { load, shelf, onToggle, q: words_.trim(), first };
  return (
    <section class="part">
      <h2>{words.choose}</h2>
      <p class="soft small">{words.chooseHint}</p>
      <TextField
        label={words.find}
        type="search"
        value={words_}
        onValue={setWords}
        input={{ autocomplete: 'off', enterkeyhint: 'search' }}
      />
      {usual.map((stage) => (
        <AtStage key={`${role} ${stage}`} stage={stage} {...shared} />
      ))}
      <details onToggle={(event) => showOthers(event.currentTarget.open)}>
        <summary>{words.others}</summary>
        {others && rest.map((stage) => <AtStage key={`${role} ${stage}`} stage={stage} {...shared} />)}
      </details>
    </section>
  );
}

interface AtStageProps extends Omit<Props, 'role'> {
  readonly stage: Stage;
  readonly q: string;
}

function AtStage({ stage, q, load, first, shelf, onToggle }: AtStageProps) {
  const asked = useReport<WareRow, Paged | undefined>('studio/ware', {
    stage,
    q: q || undefined,
    limit: '200',
  });
  const rows = (asked.answer?.rows ?? []).filter((row) => !row.inFiring);
  const put = useRef(false);
  const wanted = rows.find((row) => row.piece === first);
  useEffect(() => {
    if (!wanted || put.current) return;
    put.current = true;
    onToggle(wanted);
  }, [wanted, onToggle]);
  if (!asked.answer) return null;
  return (
    <fieldset class="at-stage">
      <legend>{sentenceCase(stageNames[stage])}</legend>
      {rows.length === 0 && <p class="soft small">{words.nothing}</p>}
      <ul class="ledger">
        {rows.map((row) => {
          const at = load.find((each) => each.piece === row.piece);
          return (
            <li key={row.piece}>
              <label class="touch">
                <input
                  type="checkbox"
                  checked={!!at}
                  onChange={() => onToggle(row)}
                  aria-label={words.put(`${row.mark ?? ''} ${titleOf(row)}`.trim(), at?.shelf ?? shelf)}
                />
                <Mark mark={row.mark} />
                <span class="what">
                  {titleOf(row)}
                  <span class="small soft">
                    {[row.clayName, row.glazeNames.join(', '), nameText(row.ownerName)]
                      .filter(Boolean)
                      .join(' · ')}
                  </span>
                </span>
                {at && <span class="at">{words.at(at.shelf)}</span>}
              </label>
            </li>
          );
        })}
      </ul>
    </fieldset>
  );
}
