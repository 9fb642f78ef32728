import './network.css';
import { useState } from 'preact/hooks';
import { phone as words } from '../words/network.ts';
import { session } from './session.ts';

const CLOSED = 'wareboard.phone-hint';

/** On the first visits on the laptop: that the page can be opened on the phone. */
export function PhoneHint() {
  const [closed, setClosed] = useState(() => localStorage.getItem(CLOSED) !== null);
  if (closed || !session.value?.here) return null;
  const close = () => {
    localStorage.setItem(CLOSED, '1');
    setClosed(true);
  };
  return (
    <aside class="phone-hint no-paper" aria-label={words.hintTitle}>
      <p>
        {words.hint} <a href="/settings/phone">{words.hintLink}</a>.
      </p>
      <button type="button" class="plain" onClick={close}>
        {words.hintClose}
      </button>
    </aside>
  );
}
