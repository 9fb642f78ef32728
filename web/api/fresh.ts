/** When something was recorded, here or on another device, what is on screen is asked for again. */
import { signal } from '@preact/signals';
import { hear, reach } from './reach.ts';

/** Goes up whenever the log has grown. */
export const recorded = signal(0);

export const nowRecorded = () => {
  recorded.value += 1;
};

function countIn(data: string): number {
  try {
    return Number((JSON.parse(data) as { count?: number }).count ?? -1);
  } catch {
    return -1;
  }
}

/** Server-sent events: one a group of new entries. The browser reconnects by itself. */
export function followLog(): () => void {
  const source = new EventSource('/api/log/live');
  let waiting: ReturnType<typeof setTimeout> | undefined;
  const heard = (event: MessageEvent<string>) => {
    if (reach.peek() === 'away') reach.value = 'here';
    hear(countIn(event.data));
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
