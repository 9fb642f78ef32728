import type { Of } from '../../plugins/template-sheets/spec/spec.ts';
import { readSvg } from '../../plugins/template-sheets/svg/read-svg.ts';
import { Field } from '../parts/field.tsx';
import { templates as words } from '../words/templates.ts';

export interface Brought {
  readonly spec?: Of<'drawing'>;
  /** What was left out, or why nothing could be made. */
  readonly said: readonly string[];
}

export type OnBrought = { readonly onBrought: (brought: Brought) => void };

/** A larger one is no drawing of a template. */
const MOST_BYTES = 20_000_000;

interface FileProps {
  readonly label: string;
  readonly hint?: string;
  readonly accept: string;
  readonly onFile: (file: File) => Promise<void>;
}

export const FileField = ({ accept, onFile, ...field }: FileProps) => (
  <Field {...field}>
    {(attributes) => (
      <input
        {...attributes}
        type="file"
        accept={accept}
        onChange={(event) => {
          const file = event.currentTarget.files?.[0];
          if (file) void onFile(file);
        }}
      />
    )}
  </Field>
);

export function FromSvg({ onBrought }: OnBrought) {
  const take = async (file: File) => {
    if (file.size > MOST_BYTES) return onBrought({ said: [words.tooLarge(file.name)] });
    const read = readSvg(await file.text());
    onBrought('wrong' in read ? { said: read.wrong } : { spec: read.spec, said: read.dropped });
  };
  return <FileField label={words.file} accept=".svg,image/svg+xml" onFile={take} />;
}
