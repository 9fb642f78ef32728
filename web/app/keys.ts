/**
 * Keys for the whole page. Those of a letter alone can be switched off (WCAG 2.2, 2.1.4), and none of them
 * does anything while one writes.
 */
import { useEffect } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import { done, undo } from '../api/orders.ts';

const KEPT = 'wareboard.keys';

export const keysOn = (): boolean => localStorage.getItem(KEPT) !== 'off';
export const setKeysOn = (on: boolean): void => {
  if (on) localStorage.removeItem(KEPT);
  else localStorage.setItem(KEPT, 'off');
};

/** After `g`: the place. */
export const PLACES: Readonly<Record<string, string>> = {
  t: '/',
  w: '/ware',
  k: '/kilns',
  p: '/post',
  r: '/review',
  l: '/log',
};

/** Milliseconds within which the second key follows the first. */
const TOGETHER = 1500;

const writing = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement && !!target.closest('input, textarea, select, [contenteditable]');

/** Where letters go to the keys of a grid, they mean nothing else. */
const inGrid = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement && !!target.closest('.key-grid');

function focusFind(): void {
  const boxes = [...document.querySelectorAll<HTMLInputElement>('[data-find]')];
  boxes.find((box) => box.checkVisibility())?.focus();
}

export function useKeys(): void {
  const { route } = useLocation();
  useEffect(() => {
    let went = Number.NEGATIVE_INFINITY;
    const single = (event: KeyboardEvent): boolean => {
      if (event.key === '?') route('/keys');
      else if (event.key === '/') focusFind();
      else if (event.key === 'b') route('/ware/begin');
      else return false;
      return true;
    };
    const onKeyDown = (event: KeyboardEvent) => {
      if (event.defaultPrevented || writing(event.target)) return;
      if ((event.ctrlKey || event.metaKey) && event.key === 'z' && !event.shiftKey) {
        const last = done.value.filter((each) => each.where === location.pathname).at(-1);
        if (last && !event.repeat) void undo(last);
        return;
      }
      if (event.ctrlKey || event.metaKey || event.altKey || !keysOn() || inGrid(event.target)) return;
      const place = performance.now() - went < TOGETHER ? PLACES[event.key] : undefined;
      went = event.key === 'g' ? performance.now() : Number.NEGATIVE_INFINITY;
      if (place) route(place);
      if (place || single(event)) event.preventDefault();
    };
    document.addEventListener('keydown', onKeyDown);
    return () => document.removeEventListener('keydown', onKeyDown);
  }, [route]);
}
