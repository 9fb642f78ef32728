/**
 * Notices of this device, only where the user asked for them, and only while the page is open: nothing is
 * sent through anybody else's servers.
 */
import { useEffect } from 'preact/hooks';
import { ask, Failed } from '../api/client.ts';
import { recorded } from '../api/fresh.ts';
import type { WaitingTold } from '../api/studio.ts';
import { headingsOf } from '../today/lines.ts';
import { type News, newsOf, unheard } from './news.ts';

const KEPT = 'wareboard.notices';
const HEARD = 'wareboard.notices.heard';
/** A kiln becomes one to draw by the clock alone. */
const EVERY = 10 * 60_000;

export type Standing = 'on' | 'off' | 'refused' | 'impossible';

export function noticesStand(): Standing {
  if (!('Notification' in globalThis)) return 'impossible';
  if (Notification.permission === 'denied') return 'refused';
  return localStorage.getItem(KEPT) === 'on' && Notification.permission === 'granted' ? 'on' : 'off';
}

/** The browser's question comes only from here: after a tap. */
export async function askForNotices(): Promise<Standing> {
  if ((await Notification.requestPermission()) !== 'granted') return noticesStand();
  localStorage.setItem(KEPT, 'on');
  // What waits already is known to whoever asks.
  await hear(() => {});
  return noticesStand();
}

export function noticesOff(): void {
  localStorage.removeItem(KEPT);
  localStorage.removeItem(HEARD);
}

function heardBefore(): readonly string[] {
  try {
    return JSON.parse(localStorage.getItem(HEARD) ?? '[]') as readonly string[];
  } catch {
    return [];
  }
}

async function hear(tell: (news: News) => void): Promise<void> {
  try {
    const { told } = await ask<WaitingTold>('/api/waiting');
    const news = newsOf(headingsOf(told, Date.now()));
    for (const each of unheard(news, heardBefore())) tell(each);
    localStorage.setItem(HEARD, JSON.stringify(news.map(({ key }) => key)));
  } catch (failure) {
    if (!(failure instanceof Failed)) throw failure;
  }
}

async function show({ title, body, key, to }: News): Promise<void> {
  const options = { body, tag: key, data: { to } };
  // On a phone only the page's worker may show one.
  const worker = await navigator.serviceWorker?.getRegistration();
  if (worker) return worker.showNotification(title, options);
  const notice = new Notification(title, options);
  notice.addEventListener('click', () => {
    window.focus();
    location.assign(to);
  });
}

/** Looks again whenever something was recorded, and now and then. */
export function useNotices(): void {
  const grown = recorded.value;
  useEffect(() => {
    if (noticesStand() !== 'on') return;
    const look = () => void hear((news) => void show(news));
    look();
    const again = setInterval(look, EVERY);
    return () => clearInterval(again);
  }, [grown]);
}
