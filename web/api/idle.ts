/** Milliseconds after which it is done even where the page is never idle. */
const AT_MOST = 2_000;

/** When the browser has nothing else to do: a touch that comes meanwhile is answered first. */
export const whenIdle = (): Promise<void> =>
  new Promise((idle) => {
    // Missing in one browser.
    if (typeof requestIdleCallback === 'undefined') setTimeout(idle, 100);
    else requestIdleCallback(() => idle(), { timeout: AT_MOST });
  });
