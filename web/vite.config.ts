import preact from '@preact/preset-vite';
import { defineConfig } from 'vite';
import { makeWorker } from './worker/build.ts';

/** The page is served from the same address as /api; scripts, styles and drawings are all files (strict CSP). */
export default defineConfig({
  root: import.meta.dirname,
  plugins: [preact({ reactAliasesEnabled: false }), makeWorker()],
  build: {
    outDir: '../dist/web',
    emptyOutDir: true,
    target: 'es2022',
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
  },
  server: { host: '127.0.0.1', proxy: { '/api': process.env.WAREBOARD_URL ?? 'http://127.0.0.1:4280' } },
});
