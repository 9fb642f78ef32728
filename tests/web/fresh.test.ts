/** What is on the screen is asked for again when it may be older than the log, and only then. */
import { afterEach, beforeEach, expect, test, vi } from 'vitest';

type Fresh = typeof import('../../web/api/fresh.ts');
let fresh: Fresh;
beforeEach(async () => {
  vi.useFakeTimers();
  vi.resetModules();
  fresh = await import('../../web/api/fresh.ts');
});
afterEach(() => vi.useRealTimers());

/** Times that all was asked for again. */
const again = () => {
  vi.advanceTimersByTime(1_000);
  return fresh.recorded.value;
};
const answered = (count: number) => fresh.nowAsking()(count);

test('the first word of the live log is no news to a screen that knows as much', () => {
  answered(12);
  answered(12);
  fresh.heardOf(12);
  expect(again()).toBe(0);
});

test('nor to one whose answers come after it', () => {
  const told = fresh.nowAsking();
  fresh.heardOf(12);
  expect(again()).toBe(0);
  told(12);
  expect(again()).toBe(0);
});

test('an answer from before the first word is asked for again', () => {
  answered(12);
  answered(11);
  fresh.heardOf(12);
  expect(again()).toBe(1);
});

test('what another device records is asked for once, however many entries come in a row', () => {
  answered(12);
  fresh.heardOf(12);
  again();
  for (const count of [13, 14, 15]) fresh.heardOf(count);
  expect(again()).toBe(1);
  answered(15);
  expect(again()).toBe(1);
});

test('what was noted here is asked for once: the live log says it too, before or after', () => {
  answered(12);
  fresh.heardOf(12);
  again();
  fresh.heardOf(13);
  fresh.nowRecorded();
  const told = fresh.nowAsking();
  expect(again()).toBe(1);
  told(13);
  expect(again()).toBe(1);

  fresh.nowRecorded();
  answered(14);
  fresh.heardOf(14);
  expect(again()).toBe(2);
});

test('a screen that asks for nothing hears of what is new all the same, for what is kept without the network', () => {
  fresh.heardOf(12);
  expect(again()).toBe(0);
  fresh.heardOf(13);
  expect(again()).toBe(1);
});
