import { useState } from 'preact/hooks';
import type { Problem } from '../api/client.ts';
import { newId } from '../api/ids.ts';
import { record } from '../api/orders.ts';
import { useAddress } from '../api/use-report.ts';
import { announce } from '../app/announce.ts';
import { CountField } from '../parts/count-field.tsx';
import { SelectField, TextField } from '../parts/field.tsx';
import { FoldOut } from '../parts/fold-out.tsx';
import { ProblemSaid } from '../parts/problem.tsx';
import { handouts as words } from '../words/handouts.ts';
import { dayFrom, dayText, today } from '../words/numbers.ts';
import { order as orderWords } from '../words/orders.ts';
import { fileAddress, type Link, linkAddress, useReach, wholeAddress } from './links.ts';
import { findPaper, usePapers, wentOut } from './of-paper.ts';
import { ReachSaid } from './reach-said.tsx';
import { Do, RecordForm } from './record-form.tsx';
import type { Granted, Order, OrderLine } from './types.ts';

const USUAL_DAYS = 30;
const USUAL_TIMES = 5;

const isOpen = ({ until, times, most, withdrawn }: Granted): boolean =>
  !withdrawn && until >= today() && times < most;

/** How the file of a line gets to the buyer: by links, or attached to a message. */
export function HandOut({ order, line }: { readonly order: Order; readonly line: OrderLine }) {
  if (!line.file)
    return (
      <p class="small">
        {orderWords.noFile} <a href={`/post/items/${encodeURIComponent(line.item)}`}>{words.toItem}</a>
      </p>
    );
  const made = order.downloads.filter((one) => one.line === line.line);
  return (
    <>
      {made.map((one) => (
        <Made key={one.download} granted={one} />
      ))}
      <div class="no-paper">
        <FoldOut summary={words.attach}>
          {() => <Attach order={order} line={line} granted={made.findLast(isOpen)} />}
        </FoldOut>
        <FoldOut summary={words.make}>{() => <MakeLink order={order} line={line} />}</FoldOut>
      </div>
    </>
  );
}

function Made({ granted }: { readonly granted: Granted }) {
  const { download, until, times, most, withdrawn } = granted;
  const open = isOpen(granted);
  const why = withdrawn ? words.withdrawn : times >= most ? words.usedUp : words.over;
  return (
    <div class="handed-out">
      <p class="small">
        {!open && <strong>{why}. </strong>}
        {words.linkStands(dayText(until), times, most)}
      </p>
      {open && <Address download={download} />}
    </div>
  );
}

function Address({ download }: { readonly download: string }) {
  const reach = useReach();
  const link = useAddress<Link>(linkAddress(download));
  if (link.problem) return <ProblemSaid problem={link.problem} reading again={link.again} />;
  if (!link.answer || !reach.answer) return null;
  const whole = wholeAddress(reach.answer, link.answer.path);
  const copy = async () => {
    await navigator.clipboard.writeText(whole);
    announce(words.copied);
  };
  return (
    <>
      <TextField
        label={words.address}
        value={whole}
        onValue={() => {}}
        input={{
          readOnly: true,
          onFocus: (event: FocusEvent) => (event.target as HTMLInputElement).select(),
        }}
      />
      <ReachSaid reach={reach.answer} />
      <p class="buttons no-paper">
        <button type="button" onClick={copy}>
          {words.copy}
        </button>
        <a class="button" href={fileAddress(download)} download>
          {words.look}
        </a>
        <Do
          label={words.withdraw}
          wish={{ command: 'download.withdraw', input: { download } }}
          sentence={words.withdrawDone}
        />
      </p>
    </>
  );
}

interface OfLine {
  readonly order: Order;
  readonly line: OrderLine;
}

function MakeLink({ order, line }: OfLine) {
  const [until, setUntil] = useState(() => dayFrom(USUAL_DAYS));
  const [most, setMost] = useState(USUAL_TIMES);
  const input = { order: order.order, line: line.line, most, ...(until ? { until } : {}) };
  return (
    <RecordForm
      submit={words.makeSubmit}
      now
      wish={() => ({
        wishes: [{ command: 'download.grant', input: { download: newId(), ...input } }],
        sentence: words.makeDone,
      })}
    >
      <div class="side-by-side">
        <TextField
          label={words.until}
          type="date"
          value={until}
          onValue={setUntil}
          input={{ min: today() }}
        />
        <CountField label={words.most} value={most} onValue={setMost} min={1} max={100} />
      </div>
    </RecordForm>
  );
}

/** Saves the PDF with the order's number on it, and notes that it went out. */
function Attach({ order, line, granted }: OfLine & { readonly granted?: Granted }) {
  const sizes = findPaper(usePapers().answer?.papers, line.paper)?.sizes ?? [];
  const [paper, setPaper] = useState('');
  const [problem, setProblem] = useState<Problem>();
  const on = paper || sizes[0];
  const save = async () => {
    const download = granted?.download ?? newId();
    const grant = { command: 'download.grant', input: { download, order: order.order, line: line.line } };
    const input = { download, how: 'message', ...(on ? { paper: on } : {}) };
    const wishes = [
      ...(granted ? [] : [grant]),
      { command: 'download.hand-out', input },
      ...wentOut(line.paper, { how: 'download', count: 1, order: order.number, ...(on ? { size: on } : {}) }),
    ];
    const sent = await record(wishes, words.saveDone);
    setProblem(sent.problem);
    if (sent.problem) return;
    if (sent.waiting) return announce(words.savedWaiting);
    const link = document.createElement('a');
    link.href = fileAddress(download, on);
    link.download = '';
    link.click();
  };
  return (
    <>
      <p class="small prose">{words.attachAbout}</p>
      {sizes.length > 0 && (
        <SelectField
          label={words.paper}
          value={on ?? ''}
          onValue={setPaper}
          options={sizes.map((value) => ({ value, label: value }))}
        />
      )}
      {problem && <ProblemSaid problem={problem} />}
      <p class="buttons">
        <button type="button" class="main" onClick={save}>
          {words.save}
        </button>
      </p>
    </>
  );
}
