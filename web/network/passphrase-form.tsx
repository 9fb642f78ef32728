import { useState } from 'preact/hooks';
import { ask, Failed, type Problem } from '../api/client.ts';
import { announce } from '../app/announce.ts';
import { TextField } from '../parts/field.tsx';
import { ProblemSaid } from '../parts/problem.tsx';
import { phone as words } from '../words/network.ts';

const ADVISED = 15;

/** Sets the passphrase, on the laptop itself. */
export function PassphraseForm({
  another,
  onDone,
}: {
  readonly another: boolean;
  readonly onDone: () => void;
}) {
  const [said, setSaid] = useState('');
  const [shown, setShown] = useState(false);
  const [problem, setProblem] = useState<Problem>();
  const missing = ADVISED - [...said.trim()].length;
  const submit = async (event: Event) => {
    event.preventDefault();
    try {
      await ask('/api/network/passphrase', {
        method: 'PUT',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ passphrase: said }),
      });
      setSaid('');
      setProblem(undefined);
      announce(words.passphraseDone);
      onDone();
    } catch (failure) {
      if (!(failure instanceof Failed)) throw failure;
      setProblem(failure.problem);
    }
  };
  return (
    <form onSubmit={submit}>
      <TextField
        label={words.passphrase}
        hint={words.passphraseHint}
        wrong={problem?.field === 'passphrase' ? problem.sentence : undefined}
        type={shown ? 'text' : 'password'}
        value={said}
        onValue={setSaid}
        input={{ required: true, autocomplete: 'new-password', maxLength: 500 }}
      />
      {said !== '' && missing > 0 && <p class="small soft">{words.passphraseShort(missing)}</p>}
      <label class="tick">
        <input type="checkbox" checked={shown} onChange={(event) => setShown(event.currentTarget.checked)} />
        {words.passphraseShow}
      </label>
      {another && <p class="small">{words.passphraseOut}</p>}
      {problem && problem.field !== 'passphrase' && <ProblemSaid problem={problem} />}
      <p class="buttons">
        <button type="submit" class="main">
          {words.passphraseSave}
        </button>
      </p>
    </form>
  );
}
