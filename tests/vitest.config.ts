import { defineConfig } from 'vitest/config';

/** Quick tests and browser tests in one run; *.prove.ts are long scripts of their own. */
export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
    globals: false,
    testTimeout: 30_000,
    hookTimeout: 60_000,
    maxWorkers: 2,
    env: { TZ: 'Europe/London' },
  },
});
