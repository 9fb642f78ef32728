import './network.css';
import { useEffect } from 'preact/hooks';
import { useAddress } from '../api/use-report.ts';
import { Page } from '../app/page.tsx';
import { Caution } from '../parts/caution.tsx';
import { ProblemSaid } from '../parts/problem.tsx';
import { settings } from '../words/materials.ts';
import { phone as words } from '../words/network.ts';
import { shell } from '../words/shell.ts';
import { Devices } from './devices.tsx';
import { PassphraseForm } from './passphrase-form.tsx';
import { Qr } from './qr.tsx';

export interface Standing {
  readonly here: boolean;
  readonly asked: boolean;
  readonly on: boolean;
  readonly passphrase: boolean;
  readonly addresses: readonly string[];
  readonly trust?: string;
  readonly fingerprint?: string;
  readonly lost?: string;
  readonly trouble?: string;
}

/** How the page gets onto a phone, and which devices may come in. */
export default function Phone() {
  const { answer, problem, again } = useAddress<Standing>('/api/network');
  return (
    <Page title={words.title} back={{ href: '/settings', to: settings.title }}>
      <p class="lead">{words.lead}</p>
      {problem && <ProblemSaid problem={problem} reading again={again} />}
      {!answer && !problem && <p class="waiting">{shell.waiting}</p>}
      {answer && !answer.here && <p>{words.here}</p>}
      {answer && <Way now={answer} again={again} />}
      {answer && (answer.on || answer.passphrase) && <Devices />}
    </Page>
  );
}

/** The next step, whichever it is. */
function Way({ now, again }: { readonly now: Standing; readonly again: () => void }) {
  const opening = now.asked && now.passphrase && !now.on && now.trouble === undefined;
  useEffect(() => {
    if (!opening) return;
    const look = setInterval(again, 1000);
    return () => clearInterval(look);
  }, [opening]);
  return (
    <>
      <Caution lines={words.care} />
      <p class="small soft prose">{words.careMore}</p>
      {now.here && !now.passphrase && (
        <section class="part">
          <h2>{words.passphraseTitle}</h2>
          <p>{words.passphraseNone}</p>
          <PassphraseForm another={false} onDone={again} />
        </section>
      )}
      {now.here && now.passphrase && !now.asked && <Start />}
      {opening && <p class="waiting">{words.opening}</p>}
      {now.trouble !== undefined && !now.on && (
        <div class="problem" role="alert">
          <p>
            <strong>{words.trouble}</strong>
          </p>
          <p>{now.trouble}</p>
        </div>
      )}
      {now.lost !== undefined && (
        <div class="problem" role="alert">
          <p>{words.lost(now.lost)}</p>
        </div>
      )}
      {now.on && <Squares now={now} />}
      {now.here && now.passphrase && (
        <section class="part">
          <h2>{words.passphraseTitle}</h2>
          <p>{words.passphraseSet}</p>
          <details>
            <summary>{words.passphraseChange}</summary>
            <PassphraseForm another onDone={again} />
          </details>
        </section>
      )}
    </>
  );
}

const Start = () => (
  <section class="part">
    <h2>{words.startTitle}</h2>
    <p>{words.start}</p>
    <code class="typed">{words.startCommand}</code>
    <p>{words.startThen}</p>
  </section>
);

/** Breaks only between pairs, so that both sides can be compared. */
const inGroups = (fingerprint: string) =>
  fingerprint.split(':').flatMap((pair, n) => (n === 0 ? [pair] : [':', <wbr key={n} />, pair]));

function Squares({ now: { addresses, trust, fingerprint } }: { readonly now: Standing }) {
  const [first, ...others] = addresses;
  if (first === undefined || trust === undefined) return <p>{words.noAddress}</p>;
  return (
    <div class="two-squares">
      <section class="part">
        <h2>{words.trustTitle}</h2>
        <p>{words.trust}</p>
        <Qr address={trust} />
        <p class="address">{trust}</p>
        <h3>{words.fingerprintTitle}</h3>
        <p>{words.fingerprint}</p>
        <code class="fingerprint">{inGroups(fingerprint ?? '')}</code>
      </section>
      <section class="part">
        <h2>{words.openTitle}</h2>
        <p>{words.open}</p>
        <Qr address={first} />
        <p class="address">{first}</p>
        {others.length > 0 && (
          <>
            <p>{words.other}</p>
            {others.map((address) => (
              <p key={address} class="address">
                {address}
              </p>
            ))}
          </>
        )}
        <p class="small">{words.keep}</p>
      </section>
    </div>
  );
}
