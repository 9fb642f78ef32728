import { useState } from 'preact/hooks';
import { ask, Failed, type Problem } from '../api/client.ts';
import { useAddress } from '../api/use-report.ts';
import { announce } from '../app/announce.ts';
import { ProblemSaid } from '../parts/problem.tsx';
import { phone as words } from '../words/network.ts';
import { dayText, momentText } from '../words/numbers.ts';
import { shell } from '../words/shell.ts';
import { type Device, session, signOut } from './session.ts';

interface Listed {
  readonly devices: readonly Device[];
}

/** The devices that may come in, each of which can be sent away. */
export function Devices() {
  const { answer, problem, again } = useAddress<Listed>('/api/devices');
  const mine = session.value?.device?.id;
  return (
    <section class="part">
      <h2>{words.devicesTitle}</h2>
      {problem && <ProblemSaid problem={problem} reading again={again} />}
      {answer?.devices.length === 0 && <p class="soft">{words.devicesNone}</p>}
      <ul class="ledger plain-ledger">
        {answer?.devices.map((device) => (
          <Line key={device.id} device={device} mine={device.id === mine} onGone={again} />
        ))}
      </ul>
      {mine !== undefined && (
        <p class="buttons">
          <button type="button" onClick={() => void signOut()}>
            {words.signOut}
          </button>
        </p>
      )}
    </section>
  );
}

interface LineProps {
  readonly device: Device;
  readonly mine: boolean;
  readonly onGone: () => void;
}

function Line({ device, mine, onGone }: LineProps) {
  const [asked, setAsked] = useState(false);
  const [problem, setProblem] = useState<Problem>();
  const sendAway = async () => {
    try {
      await ask(`/api/devices/${encodeURIComponent(device.id)}`, {
        method: 'DELETE',
        headers: { 'content-type': 'application/json' },
        body: '{}',
      });
      announce(words.awayDone(device.name));
      onGone();
    } catch (failure) {
      if (!(failure instanceof Failed)) throw failure;
      setProblem(failure.problem);
    }
  };
  return (
    <li>
      <div class="line">
        <p class="first-line">
          <strong>{device.name}</strong>
          {mine && <span>{words.thisDevice}</span>}
        </p>
        <p class="small soft">
          {words.seen(momentText(device.seen))} · {words.since(dayText(device.since))}
        </p>
        {!mine && !asked && (
          <button
            type="button"
            class="plain"
            aria-label={`${words.away}: ${device.name}`}
            onClick={() => setAsked(true)}
          >
            {words.away}
          </button>
        )}
        {asked && (
          <>
            <p>{words.awaySure(device.name)}</p>
            <p class="buttons">
              <button type="button" class="main" onClick={() => void sendAway()}>
                {words.awayDo}
              </button>
              <button type="button" onClick={() => setAsked(false)}>
                {shell.cancel}
              </button>
            </p>
          </>
        )}
        {problem && <ProblemSaid problem={problem} />}
      </div>
    </li>
  );
}
