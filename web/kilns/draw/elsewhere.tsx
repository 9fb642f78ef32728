import { useState } from 'preact/hooks';
import type { Wish } from '../../api/orders.ts';
import { match } from '../../find/match.ts';
import { Results } from '../../find/results.tsx';
import { useMarks } from '../../find/use-marks.ts';
import { Field } from '../../parts/field.tsx';
import { KeyGrid } from '../../parts/key-grid.tsx';
import { draw as words } from '../../words/draw.ts';
import { ware } from '../../words/ware.ts';
import type { HandProps } from './hand.tsx';
import { nameOf } from './piece-in-hand.tsx';

interface Props extends HandProps {
  readonly disabled: boolean;
  readonly onSend: (wishes: readonly Wish[], sentence: string) => void;
  readonly onBack: () => void;
}

/** What is not as it was packed: a piece that is not there, one that is and was not packed; or another is taken first. */
export function Elsewhere(props: Props) {
  const { onLoad, onFinish, onBack, disabled } = props;
  const [step, setStep] = useState<'missing' | 'found'>();
  if (step === 'missing') return <Missing {...props} />;
  if (step === 'found') return <FoundHere {...props} />;
  const pick = (value: string) => {
    if (value === 'load') onLoad();
    else if (value === 'finish') onFinish();
    else setStep(value as 'missing' | 'found');
  };
  return (
    <KeyGrid
      legend={words.elsewhere.legend}
      columns={2}
      keys={(['load', 'missing', 'found', 'finish'] as const).map((value) => ({
        value,
        label: words.elsewhere[value],
      }))}
      onPick={pick}
      onBack={onBack}
      disabled={disabled}
      takesFocus
    />
  );
}

/** Taken out of the load as of when it was packed, or noted as lost. */
function Missing({ firing, row, disabled, onSend, onBack }: Props) {
  const what = nameOf(row);
  const { piece } = row;
  const pick = (value: string) => {
    if (value === 'lost')
      onSend([{ command: 'piece.leave', input: { piece, how: 'lost' } }], words.missing.lostDone(what));
    else
      onSend(
        [
          {
            command: 'firing.unpack',
            input: { firing: firing.firing, pieces: [piece] },
            happenedAt: row.packedAt,
          },
        ],
        words.missing.leftOutDone(what),
      );
  };
  return (
    <KeyGrid
      legend={words.missing.legend}
      columns={2}
      keys={[
        { value: 'left-out', label: words.missing.leftOut },
        { value: 'lost', label: words.missing.lost },
      ]}
      onPick={pick}
      onBack={onBack}
      disabled={disabled}
      takesFocus
    />
  );
}

/** By its foot mark: it went through this firing without having been noted, on the shelf that is being drawn. */
function FoundHere({ firing, row, onSend }: Props) {
  const [text, setText] = useState('');
  const marks = useMarks(true).filter((marked) => marked.firing !== firing.firing);
  return (
    <div class="found-here">
      <Field label={words.found.title} hint={words.found.hint}>
        {(attributes) => (
          <input
            {...attributes}
            type="search"
            autocomplete="off"
            autocapitalize="characters"
            spellcheck={false}
            value={text}
            onInput={(event) => setText(event.currentTarget.value)}
          />
        )}
      </Field>
      <Results
        found={match(text, marks)}
        text={text}
        onPick={(marked) => {
          const { kiln, role, schedule } = firing;
          const places = [{ piece: marked.piece, ...(row.shelf === null ? {} : { shelf: row.shelf }) }];
          const input = {
            firing: firing.firing,
            ...(firing.label ? { label: firing.label } : {}),
            kiln,
            role,
            ...(schedule ? { schedule } : {}),
            places,
            stagesNotNoted: true,
            afterwards: 'ended',
          };
          const what = `${marked.mark} ${ware.many(marked.count, marked.form ?? ware.piece)}`;
          onSend([{ command: 'firing.pack', input }], words.found.done(what));
        }}
      />
      <p>
        {words.found.unknown} <a href="/ware/begin">{words.found.begin}</a>
      </p>
    </div>
  );
}
