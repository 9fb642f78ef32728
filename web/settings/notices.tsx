import { useState } from 'preact/hooks';
import { askForNotices, noticesOff, noticesStand } from '../notices/notices.ts';
import { noticeWords as words } from '../words/telling.ts';

/** Asked for by a tap, and never before. */
export function Notices() {
  const [stands, setStands] = useState(noticesStand());
  return (
    <section class="part">
      <h2>{words.title}</h2>
      <p class="prose">{words.about}</p>
      <p class="prose soft">{words.cannot}</p>
      <p role="status">{stands === 'off' ? '' : words[stands]}</p>
      <p class="buttons">
        {stands === 'off' && (
          <button type="button" onClick={async () => setStands(await askForNotices())}>
            {words.ask}
          </button>
        )}
        {stands === 'on' && (
          <button
            type="button"
            onClick={() => {
              noticesOff();
              setStands(noticesStand());
            }}
          >
            {words.off}
          </button>
        )}
      </p>
    </section>
  );
}
