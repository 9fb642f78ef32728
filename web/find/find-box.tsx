import './find.css';
import { useEffect, useId, useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import { find as words } from '../words/find.ts';
import { type Marked, match } from './match.ts';
import { Results } from './results.tsx';
import { useMarks } from './use-marks.ts';

/** Always there: a foot mark or a few words lead to the piece. */
export function FindBox() {
  const { path, route } = useLocation();
  const id = useId();
  const [text, setText] = useState('');
  const [wanted, setWanted] = useState(false);
  const found = match(text, useMarks(wanted));
  useEffect(() => setText(''), [path]);
  const everywhere = `/ware?q=${encodeURIComponent(text.trim())}`;
  const pick = (row: Marked) => route(`/ware/${encodeURIComponent(row.piece)}`);
  const submit = (event: Event) => {
    event.preventDefault();
    const only = found.hits.length === 1 ? found.hits[0] : undefined;
    if (only) pick(only);
    else if (found.hits.length > 1 || (found.likely.length === 0 && text.trim())) route(everywhere);
  };
  return (
    <search class="find">
      <form onSubmit={submit} onKeyDown={(event) => event.key === 'Escape' && setText('')}>
        <label class="unseen" for={id}>
          {words.label}
        </label>
        <input
          id={id}
          type="search"
          name="find"
          placeholder={words.hint}
          value={text}
          autocomplete="off"
          autocapitalize="characters"
          spellcheck={false}
          enterkeyhint="search"
          data-find
          onFocus={() => setWanted(true)}
          onInput={(event) => setText(event.currentTarget.value)}
        />
        <a class="button scan" href="/find">
          <span class="unseen">{words.scan}</span>
          <svg viewBox="0 0 24 24" aria-hidden="true">
            <path d="M3 8V3h5M16 3h5v5M21 16v5h-5M8 21H3v-5M8 8h3v3H8zM13.500 8H16v2.500M8 13.500V16h2.500M13.500 13.500H16V16h-2.500z" />
          </svg>
        </a>
        {text.trim().length > 1 && (
          <Results found={found} text={text} onPick={pick} everywhere={everywhere} />
        )}
      </form>
    </search>
  );
}
