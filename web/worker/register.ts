/** Puts the page on this device, and says when there is a newer one. */
import { newer } from '../api/reach.ts';

/** Milliseconds between looks for a newer page, while this one stays open. */
const LOOK = 3_600_000;

export async function registerWorker(): Promise<void> {
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return;
  try {
    const registration = await navigator.serviceWorker.register('/worker.js');
    offer(registration);
    registration.addEventListener('updatefound', () => {
      const { installing } = registration;
      installing?.addEventListener('statechange', () => offer(registration));
    });
    registration.active?.postMessage('look-after-page');
    let looked = Date.now();
    document.addEventListener('visibilitychange', () => {
      if (document.visibilityState !== 'visible' || Date.now() - looked < LOOK) return;
      looked = Date.now();
      void registration.update().catch(() => {});
    });
  } catch {
    // Not served over https or from this machine: the page works, but needs the network to open.
  }
}

function offer(registration: ServiceWorkerRegistration): void {
  const { waiting } = registration;
  if (!waiting || !navigator.serviceWorker.controller) return;
  newer.value = () => {
    // Only the screen that asked for it: another one may hold a half-filled form.
    navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true });
    waiting.postMessage('take-over');
  };
}
