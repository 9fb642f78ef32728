import { SelectField, TextField } from '../parts/field.tsx';
import { FoldOut } from '../parts/fold-out.tsx';
import { templates as words } from '../words/templates.ts';
import {
  asked,
  type BaseKind,
  type Closing,
  type Draft,
  type DraftForm,
  firstHandle,
  type HandleDraft,
  isWalled,
  type Joint,
  type Measuring,
  OPTIONAL,
} from './draft.ts';

interface Props {
  readonly draft: Draft;
  readonly onDraft: (draft: Draft) => void;
}

const optionsOf = (names: Readonly<Record<string, string>>) =>
  Object.entries(names).map(([value, label]) => ({ value, label }));

interface NumberProps {
  readonly label: string;
  readonly hint?: string;
  readonly optional?: boolean;
  readonly value: string;
  readonly onValue: (value: string) => void;
}

export const NumberField = (props: NumberProps) => (
  <TextField {...props} type="number" input={{ min: 0, step: 'any', inputMode: 'decimal' }} />
);

/** What is asked of every pot: its form, its measures, its wall, its base. */
export function Measures({ draft, onDraft }: Props) {
  return (
    <>
      <SelectField
        label={words.form}
        value={draft.form}
        onValue={(form) => onDraft({ ...draft, form: form as DraftForm })}
        options={optionsOf(words.forms)}
      />
      <div class="side-by-side">
        {draft.form === 'bowl' && (
          <SelectField
            label={words.closing}
            value={draft.closing}
            onValue={(closing) => onDraft({ ...draft, closing: closing as Closing })}
            options={optionsOf(words.closings)}
          />
        )}
        {asked(draft).map((measure) => (
          <NumberField
            key={measure}
            label={words.measures[measure]}
            optional={OPTIONAL.has(measure)}
            value={draft.measures[measure] ?? ''}
            onValue={(value) =>
              onDraft({
                ...draft,
                measures: { ...draft.measures, [measure]: value },
              })
            }
          />
        ))}
        <NumberField
          label={words.thickness}
          optional
          value={draft.thickness}
          onValue={(thickness) => onDraft({ ...draft, thickness })}
        />
        {isWalled(draft.form) && (
          <SelectField
            label={words.base}
            value={draft.base}
            onValue={(base) => onDraft({ ...draft, base: base as BaseKind })}
            options={optionsOf(words.bases)}
          />
        )}
      </div>
    </>
  );
}

/** How its clay is measured and joined, and its handle: one step behind. */
export const Details = ({ draft, onDraft }: Props) => (
  <>
    <FoldOut summary={words.jointsNow(isWalled(draft.form) ? words.joints[draft.joint] : undefined)}>
      {() => (
        <div class="side-by-side">
          <SelectField
            label={words.measured}
            hint={words.measuredHint}
            value={draft.measured}
            onValue={(measured) => onDraft({ ...draft, measured: measured as Measuring })}
            options={optionsOf(words.measurings)}
          />
          {isWalled(draft.form) && <Joints draft={draft} onDraft={onDraft} />}
        </div>
      )}
    </FoldOut>
    <FoldOut summary={words.handleNow(draft.handle)}>
      {() => <HandleFields handle={draft.handle} onHandle={(handle) => onDraft({ ...draft, handle })} />}
    </FoldOut>
  </>
);

const Joints = ({ draft, onDraft }: Props) => (
  <>
    <SelectField
      label={words.seam}
      value={draft.joint}
      onValue={(joint) => onDraft({ ...draft, joint: joint as Joint })}
      options={optionsOf(words.joints)}
    />
    <NumberField
      label={words.allowance}
      hint={words.allowanceHint}
      optional
      value={draft.allowance}
      onValue={(allowance) => onDraft({ ...draft, allowance })}
    />
    {draft.form === 'polygon' && (
      <SelectField
        label={words.faces}
        value={draft.faces}
        onValue={(faces) => onDraft({ ...draft, faces: faces as Draft['faces'] })}
        options={optionsOf(words.facesAre)}
      />
    )}
  </>
);

function HandleFields({
  handle,
  onHandle,
}: {
  readonly handle: HandleDraft | undefined;
  readonly onHandle: (handle: HandleDraft | undefined) => void;
}) {
  return (
    <>
      <label class="tick">
        <input
          type="checkbox"
          checked={handle !== undefined}
          onChange={(event) => onHandle(event.currentTarget.checked ? firstHandle : undefined)}
        />
        {words.withHandle}
      </label>
      {handle && (
        <div class="side-by-side">
          {(['length', 'width', 'endWidth', 'count'] as const).map((field) => (
            <NumberField
              key={field}
              label={words.handle[field]}
              optional={field === 'endWidth' || field === 'count'}
              value={handle[field]}
              onValue={(value) => onHandle({ ...handle, [field]: value })}
            />
          ))}
        </div>
      )}
    </>
  );
}
