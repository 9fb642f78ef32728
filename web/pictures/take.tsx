import './pictures.css';
import { useState } from 'preact/hooks';
import type { Problem } from '../api/client.ts';
import { record, type Wish } from '../api/orders.ts';
import { type Option, SelectField } from '../parts/field.tsx';
import { ProblemSaid } from '../parts/problem.tsx';
import { pictures as words } from '../words/pictures.ts';
import { remember } from './addresses.ts';
import { type Prepared, prepare } from './prepare.ts';

/** What a picture can show, with what the order says then. */
export interface Aim extends Option {
  readonly says: Readonly<Record<string, string>>;
}

interface Props {
  /** 'piece:…', 'firing:…', 'glaze:…' */
  readonly to: string;
  /** What it can show besides the thing as a whole. */
  readonly aims?: readonly Aim[];
  /** What is recorded of it, where it is not attached to a thing of the studio. */
  readonly wish?: (picture: Omit<Prepared, 'blob'>) => Omit<Wish, 'files'>;
  readonly onKept?: () => void;
}

const WHOLE = 'whole';

/** Takes a picture, or chooses one, and keeps it. */
export function TakePicture({ to, aims = [], wish, onKept }: Props) {
  const [aim, setAim] = useState(WHOLE);
  const [busy, setBusy] = useState<string>();
  const [wrong, setWrong] = useState<string>();
  const [problem, setProblem] = useState<Problem>();
  const keep = async (file: Blob) => {
    setWrong(undefined);
    setProblem(undefined);
    setBusy(words.busy);
    // What the next one shows may be chosen while this one is being kept.
    setAim(WHOLE);
    const prepared = await prepare(file);
    if (typeof prepared === 'string') {
      setWrong(prepared === 'not-readable' ? words.notReadable : words.tooLarge);
      return;
    }
    setBusy(words.sending);
    const { blob, ...picture } = prepared;
    remember(picture.sha256, blob);
    const attach = { to, ...picture, ...aims.find(({ value }) => value === aim)?.says };
    const asked = wish?.(picture) ?? { command: 'file.attach', input: attach };
    const sent = await record([{ ...asked, files: [{ sha256: picture.sha256, blob }] }], words.done);
    setProblem(sent.problem);
    if (!sent.problem) onKept?.();
  };
  const taken = (event: Event) => {
    const input = event.currentTarget as HTMLInputElement;
    const file = input.files?.[0];
    if (!file) return;
    // The same one may be chosen again.
    void keep(file).finally(() => {
      setBusy(undefined);
      input.value = '';
    });
  };
  return (
    <div class="take no-paper">
      {aims.length > 0 && (
        <SelectField
          label={words.shows}
          value={aim}
          onValue={setAim}
          options={[{ value: WHOLE, label: words.whole }, ...aims]}
        />
      )}
      <p class="buttons">
        <label class="button take-one">
          <input type="file" accept="image/*" capture="environment" disabled={!!busy} onChange={taken} />
          {words.take}
        </label>
        <label class="button choose-one">
          <input type="file" accept="image/*" disabled={!!busy} onChange={taken} />
          {words.choose}
        </label>
      </p>
      <p role="status" class={busy ? 'waiting' : 'unseen'}>
        {busy}
      </p>
      {wrong && (
        <p class="wrong" role="alert">
          {wrong}
        </p>
      )}
      {problem && <ProblemSaid problem={problem} />}
      <p class="small soft">{words.private}</p>
    </div>
  );
}
