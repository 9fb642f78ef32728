import './network.css';
import { useEffect, useState } from 'preact/hooks';
import { Page } from '../app/page.tsx';
import { TextField } from '../parts/field.tsx';
import { ProblemSaid } from '../parts/problem.tsx';
import { signIn as words } from '../words/network.ts';
import { type Refused, session, signIn } from './session.ts';

/** What the device says of itself; its user can call it something better. */
export function deviceCalled(agent: string): string {
  const { devices } = words;
  if (/iPhone/.test(agent)) return devices.iphone;
  if (/iPad/.test(agent)) return devices.ipad;
  if (/Android/.test(agent)) return devices.android;
  if (/Macintosh/.test(agent)) return devices.mac;
  return /Windows/.test(agent) ? devices.windows : devices.other;
}

/** In the place of every screen until the passphrase was said; what was being entered stays behind it. */
export default function SignIn() {
  const [passphrase, setPassphrase] = useState('');
  const [name, setName] = useState(() => deviceCalled(navigator.userAgent));
  const [refused, setRefused] = useState<Refused>();
  const [busy, setBusy] = useState(false);
  const [left, setLeft] = useState(0);
  useEffect(() => {
    if (left <= 0) return;
    const tick = setTimeout(() => setLeft(left - 1), 1000);
    return () => clearTimeout(tick);
  }, [left]);
  const submit = async (event: Event) => {
    event.preventDefault();
    setBusy(true);
    const answer = await signIn(passphrase, name.trim());
    setBusy(false);
    setRefused(answer);
    setLeft(answer?.wait ?? 0);
  };
  const wrong = refused?.problem.code === 'wrong-passphrase' ? refused.problem.sentence : undefined;
  return (
    <Page title={words.title}>
      <div class="sign-in">
        <p class="lead">{words.lead}</p>
        {session.value?.signedIn && <p>{words.again}</p>}
        <form onSubmit={submit}>
          <TextField
            label={words.passphrase}
            wrong={wrong}
            type="password"
            value={passphrase}
            onValue={setPassphrase}
            input={{ required: true, autocomplete: 'current-password' }}
          />
          <TextField
            label={words.name}
            hint={words.nameHint}
            value={name}
            onValue={setName}
            input={{ required: true, maxLength: 60, autocomplete: 'off' }}
          />
          {refused && !wrong && left === 0 && refused.wait === undefined && (
            <ProblemSaid problem={refused.problem} />
          )}
          {left > 0 && (
            <p class="wrong" role="status">
              {words.wait(left)}
            </p>
          )}
          <p class="buttons">
            <button type="submit" class="main" disabled={busy || left > 0}>
              {busy ? words.checking : words.submit}
            </button>
          </p>
          <p class="small soft">{words.forgotten}</p>
        </form>
      </div>
    </Page>
  );
}
