import './post.css';
import { Fragment } from 'preact';
import { useState } from 'preact/hooks';
import { Failed, type Problem, send } from '../api/client.ts';
import { announce } from '../app/announce.ts';
import { Page } from '../app/page.tsx';
import { Shown } from '../parts/asked.tsx';
import { TextField } from '../parts/field.tsx';
import { FoldOut } from '../parts/fold-out.tsx';
import { ProblemSaid } from '../parts/problem.tsx';
import { handouts as words } from '../words/handouts.ts';
import { post } from '../words/post.ts';
import { type Reach, useReach } from './links.ts';

/** How a buyer gets to a file: what works from where, the address of one's own, and shutting all links. */
export default function Links() {
  const asked = useReach();
  return (
    <Page title={words.title} back={{ href: '/post', to: post.title }}>
      <p class="lead">{words.lead}</p>
      <section class="part">
        <h2>{words.ways}</h2>
        <dl class="facts prose">
          {words.wayList.map(([way, what]) => (
            <Fragment key={way}>
              <dt>{way}</dt>
              <dd>{what}</dd>
            </Fragment>
          ))}
        </dl>
      </section>
      <Shown of={asked}>{(reach) => <Own reach={reach} again={asked.again} />}</Shown>
      <section class="part no-paper">
        <h2>{words.shutTitle}</h2>
        <p class="prose">{words.shutWhy}</p>
        <FoldOut summary={words.shut}>{() => <Shut />}</FoldOut>
      </section>
    </Page>
  );
}

/** One request, with what it said when it went wrong. */
function useSent() {
  const [problem, setProblem] = useState<Problem>();
  const sent = async (address: string, body: unknown, sentence: string): Promise<boolean> => {
    setProblem(undefined);
    try {
      await send(address, body);
      announce(sentence);
      return true;
    } catch (failure) {
      if (!(failure instanceof Failed)) throw failure;
      setProblem(failure.problem);
      return false;
    }
  };
  return { problem, sent };
}

function Own({ reach, again }: { readonly reach: Reach; readonly again: () => void }) {
  const [address, setAddress] = useState(reach.outside ?? '');
  const { problem, sent } = useSent();
  const say = async (next: string | null) => {
    if (await sent('/api/handouts/address', { address: next }, words.ownDone)) again();
  };
  return (
    <section class="part no-paper">
      <h2>{words.own}</h2>
      {reach.outside && <p>{words.outside(reach.outside)}</p>}
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void say(address);
        }}
      >
        <TextField
          label={words.ownField}
          hint={words.ownHint}
          value={address}
          onValue={setAddress}
          input={{ inputMode: 'url', autocomplete: 'off', spellcheck: false }}
        />
        {problem && <ProblemSaid problem={problem} />}
        <p class="buttons">
          <button type="submit" class="main" disabled={!address.trim()}>
            {words.ownSubmit}
          </button>
          {reach.outside && (
            <button
              type="button"
              onClick={() => {
                setAddress('');
                void say(null);
              }}
            >
              {words.ownNone}
            </button>
          )}
        </p>
      </form>
    </section>
  );
}

function Shut() {
  const { problem, sent } = useSent();
  const [done, setDone] = useState(false);
  return (
    <>
      {problem && <ProblemSaid problem={problem} />}
      {done ? (
        <p>{words.shutDone}</p>
      ) : (
        <p class="buttons">
          <button
            type="button"
            class="main"
            onClick={async () => setDone(await sent('/api/handouts/new-key', {}, words.shutDone))}
          >
            {words.shutSubmit}
          </button>
        </p>
      )}
    </>
  );
}
