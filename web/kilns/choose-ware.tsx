import { Component } from 'preact';
import { useCallback, useEffect, useRef, useState } from 'preact/hooks';
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
  const latest = useRef(onToggle);
  latest.current = onToggle;
  const toggle = useCallback((row: WareRow) => latest.current(row), []);
  const shared = { load, shelf, onToggle: toggle, q: words_.trim(), first };
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
  const begun = useRef(false);
  const wanted = rows.find((row) => row.piece === first);
  useEffect(() => {
    if (!wanted || begun.current) return;
    begun.current = true;
    onToggle(wanted);
  }, [wanted, onToggle]);
  if (!asked.answer) return null;
  const put = new Map(load.map((each) => [each.piece, each.shelf]));
  return (
    <fieldset class="at-stage">
      <legend>{sentenceCase(stageNames[stage])}</legend>
      {rows.length === 0 && <p class="soft small">{words.nothing}</p>}
      <ul class="ledger">
        {rows.map((row) => (
          <Choice key={row.piece} row={row} at={put.get(row.piece)} shelf={shelf} onToggle={onToggle} />
        ))}
      </ul>
    </fieldset>
  );
}

interface ChoiceProps {
  readonly row: WareRow;
  /** The shelf it stands on in the load. */
  readonly at: number | undefined;
  readonly shelf: number;
  readonly onToggle: (row: WareRow) => void;
}

/** One of some hundreds: drawn anew only when something of its own has changed. */
class Choice extends Component<ChoiceProps> {
  override shouldComponentUpdate(next: ChoiceProps): boolean {
    const { row, at, shelf } = this.props;
    return next.row !== row || next.at !== at || next.shelf !== shelf;
  }

  render() {
    const { row, at, shelf, onToggle } = this.props;
    const about = [row.clayName, row.glazeNames.join(', '), nameText(row.ownerName)];
    return (
      <li>
        <label class="touch">
          <input
            type="checkbox"
            checked={at !== undefined}
            onChange={() => onToggle(row)}
            aria-label={words.put(`${row.mark ?? ''} ${titleOf(row)}`.trim(), at ?? shelf)}
          />
          <Mark mark={row.mark} />
          <span class="what">
            {titleOf(row)}
            <span class="small soft">{about.filter(Boolean).join(' · ')}</span>
          </span>
          {at !== undefined && <span class="at">{words.at(at)}</span>}
        </label>
      </li>
    );
  }
}
