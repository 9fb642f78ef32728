import { defineConfig } from 'vitest/config';

const BROWSER = 'tests/**/*.browser.test.ts';

/**
 * Quick tests first, two files at a time; then those in a browser, one file after the other: a browser and a
 * server need both cores of a small machine, and what waits for a screen must not wait for another test.
 * *.prove.ts are long scripts of their own.
 */
export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    globals: false,
    hookTimeout: 60_000,
    setupFiles: ['tests/support/patterns.ts'],
    env: { TZ: 'Europe/London' },
    projects: [
      {
        extends: true,
        test: {
          name: 'quick',
          include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
          exclude: [BROWSER],
          testTimeout: 30_000,
          maxWorkers: 2,
          sequence: { groupOrder: 0 },
        },
      },
      {
        extends: true,
        test: {
          name: 'browser',
          include: [BROWSER],
          testTimeout: 120_000,
          maxWorkers: 1,
          fileParallelism: false,
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});
