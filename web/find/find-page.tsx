import './find.css';
import { useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import { Page } from '../app/page.tsx';
import { Field } from '../parts/field.tsx';
import { find as words } from '../words/find.ts';
import { Camera } from './camera.tsx';
import { openReader } from './decode.ts';
import { match, readLabel } from './match.ts';
import { Results } from './results.tsx';
import { useMarks } from './use-marks.ts';

/** By mark, by the camera, or by a photograph of the label. */
export default function Find() {
  const { route } = useLocation();
  const marks = useMarks(true);
  const [text, setText] = useState('');
  const [looking, setLooking] = useState(false);
  const [problem, setProblem] = useState<string>();
  const go = (piece: string) => route(`/ware/${encodeURIComponent(piece)}`);
  const onCode = (code: string) => {
    setLooking(false);
    const label = readLabel(code);
    const piece =
      label && ('piece' in label ? label.piece : marks.find(({ mark }) => mark === label.mark)?.piece);
    if (piece) return go(piece);
    setProblem(words.notOurs(code.slice(0, 80)));
    if (label && 'mark' in label) setText(label.mark);
  };
  const onPhoto = async (file: File | undefined) => {
    setProblem(undefined);
    if (!file) return;
    const picture = await createImageBitmap(file).catch(() => undefined);
    const code = picture && (await (await openReader())(picture));
    if (code) onCode(code);
    else setProblem(words.unread);
  };
  const camera = !!navigator.mediaDevices;
  return (
    <Page title={words.title} atKiln>
      <p class="lead">{words.lead}</p>
      <Field label={words.label} hint={words.hint}>
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
      {text.trim().length > 1 && (
        <Results
          found={match(text, marks)}
          text={text}
          onPick={({ piece }) => go(piece)}
          everywhere={`/ware?q=${encodeURIComponent(text.trim())}`}
        />
      )}
      {problem && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
      {looking ? (
        <Camera onCode={onCode} onClose={() => setLooking(false)} />
      ) : camera ? (
        <p class="buttons">
          <button
            type="button"
            class="main"
            onClick={() => {
              setProblem(undefined);
              setLooking(true);
            }}
          >
            {words.open}
          </button>
        </p>
      ) : (
        <p class="soft">{words.noCamera}</p>
      )}
      <Field label={words.photo} hint={words.photoHint}>
        {(attributes) => (
          <input
            {...attributes}
            type="file"
            accept="image/*"
            capture="environment"
            onChange={(event) => void onPhoto(event.currentTarget.files?.[0])}
          />
        )}
      </Field>
    </Page>
  );
}
