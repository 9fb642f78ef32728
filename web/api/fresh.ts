/** When something was recorded, here or on another device, what is on screen is asked for again. */
import { signal } from '@preact/signals';

/** Goes up whenever the log has grown. */
export const recorded = signal(0);

export const nowRecorded = () => {
  recorded.value += 1;
};

/** Server-sent events: one a group of new entries. The browser reconnects by itself. */
export function followLog(): () => void {
  const source = new EventSource('/api/log/live');
  let waiting: ReturnType<typeof setTimeout> | undefined;
  const heard = () => {
    if (waiting) return;
    waiting = setTimeout(() => {
      waiting = undefined;
      nowRecorded();
    }, 250);
  };
  source.addEventListener('message', heard);
  source.addEventListener('entry', heard);
  source.addEventListener('entries', heard);
  return () => {
    clearTimeout(waiting);
    source.close();
  };
}
