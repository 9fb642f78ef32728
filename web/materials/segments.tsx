import { TextField } from '../parts/field.tsx';
import { segments as words } from '../words/segments.ts';
import type { SegmentDraft } from './draft.ts';

interface Props {
  readonly segments: readonly SegmentDraft[];
  readonly onSegments: (segments: readonly SegmentDraft[]) => void;
}

/** Steps of a schedule: how fast, to where, and how long it is held. */
export function Segments({ segments, onSegments }: Props) {
  const set = (n: number, change: Partial<SegmentDraft>) =>
    onSegments(segments.map((each, at) => (at === n ? { ...each, ...change } : each)));
  const field = (n: number, name: keyof SegmentDraft) => (
    <TextField
      label={words[name]}
      type="number"
      value={segments[n]![name]}
      onValue={(value) => set(n, { [name]: value })}
      input={{ step: 'any', inputMode: 'decimal' }}
    />
  );
  return (
    <fieldset>
      <legend>{words.title}</legend>
      <p class="hint">{words.hint}</p>
      {segments.map((_, n) => (
        <fieldset key={n}>
          <legend class="unseen">{words.step(n + 1)}</legend>
          <div class="side-by-side">
            {field(n, 'rate')}
            {field(n, 'target')}
            {field(n, 'hold')}
          </div>
        </fieldset>
      ))}
      <p class="buttons">
        <button type="button" onClick={() => onSegments([...segments, { rate: '', target: '', hold: '0' }])}>
          {words.add}
        </button>
        {segments.length > 0 && (
          <button type="button" onClick={() => onSegments(segments.slice(0, -1))}>
            {words.remove}
          </button>
        )}
      </p>
    </fieldset>
  );
}
