/**
 * Builds the page (vite) and the server (esbuild) into dist/, each only when one of
 * its sources, or a package, is another than when it was last built.
 */
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const PACKAGES = ['package-lock.json', 'tsconfig.json'];

/** What each is made from, and the file that shows it was made. */
const TARGETS = {
  web: {
    from: ['web', 'plugins/template-sheets', 'server/contract', 'server/studio', 'server/host', ...PACKAGES],
    made: 'dist/web/index.html',
    build: buildWeb,
  },
  server: { from: ['server', 'plugins', ...PACKAGES], made: 'dist/server/wareboard.js', build: buildServer },
};

for (const [name, { from, made, build }] of Object.entries(TARGETS)) {
  const stamp = join(root, 'dist', `.${name}.built`);
  const now = hashOf(from);
  if (existsSync(join(root, made)) && existsSync(stamp) && readFileSync(stamp, 'utf8') === now) continue;
  rmSync(stamp, { force: true });
  await build();
  mkdirSync(dirname(stamp), { recursive: true });
  writeFileSync(stamp, now);
}

/** Of the names and contents of all files there. */
function hashOf(places) {
  const hash = createHash('sha256').update(process.version);
  for (const path of places.flatMap((place) => filesAt(join(root, place)))) {
    hash.update(`\0${relative(root, path)}\0`).update(readFileSync(path));
  }
  return hash.digest('hex');
}

function filesAt(path) {
  if (!existsSync(path)) return [];
  const entries = path.endsWith('.json') ? undefined : readdirSync(path, { withFileTypes: true });
  if (entries === undefined) return [path];
  return entries
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((each) => (each.isDirectory() ? filesAt(join(path, each.name)) : [join(path, each.name)]));
}

async function buildWeb() {
  // A test that has it built says 'test' here, and would get the page of development.
  process.env.NODE_ENV = 'production';
  const { build } = await import('vite');
  await build({ root: join(root, 'web'), configFile: join(root, 'web/vite.config.ts'), logLevel: 'warn' });
}

/** Packages stay in node_modules: the database driver has native parts, and only our own code is bundled. */
async function buildServer() {
  const { build } = await import('esbuild');
  rmSync(join(root, 'dist/server'), { recursive: true, force: true });
  await build({
    absWorkingDir: root,
    entryPoints: { wareboard: 'server/cli/wareboard.ts', ...threads() },
    outdir: 'dist/server',
    bundle: true,
    platform: 'node',
    format: 'esm',
    // What only some requests need is read when they come.
    splitting: true,
    target: 'node20.19',
    packages: 'external',
    sourcemap: true,
    logLevel: 'warning',
  });
}

/** Files that are started as threads (server/contract/thread.ts), by the names under which the bundle looks for them. */
function threads() {
  const found = TARGETS.server.from
    .flatMap((place) => filesAt(join(root, place)))
    .filter((path) => path.endsWith('-thread.ts'))
    .map((path) => [basename(path, '.ts'), relative(root, path)]);
  const threads = Object.fromEntries(found);
  if (Object.keys(threads).length < found.length) throw new Error('two threads have the same name');
  return threads;
}
