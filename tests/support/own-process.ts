/** The program as it is built, in a process of its own that can be killed, on a port that stays the same. */
import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { once } from 'node:events';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));

export class OwnProcess {
  private child: ChildProcess | undefined;
  private port = '0';
  /** Where the program and the page are. */
  private from = ROOT;
  private readonly folder = mkdtempSync(join(tmpdir(), 'wareboard-killed-'));
  address = '';

  static build(): void {
    execFileSync(process.execPath, ['server/build.mjs'], { cwd: ROOT });
  }

  async start(): Promise<void> {
    const env = { ...process.env, WAREBOARD_DATA: join(this.folder, 'data'), PORT: this.port };
    this.child = spawn(process.execPath, [join(this.from, 'dist/server/wareboard.js'), 'serve'], {
      cwd: this.from,
      env,
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    for await (const line of createInterface({ input: this.child.stdout! })) {
      const address = /^Wareboard is at (.+)$/.exec(line)?.[1];
      if (address === undefined) continue;
      this.address = address;
      this.port = new URL(address).port;
      return;
    }
    throw new Error('the server ended before it was reached');
  }

  /** As when the plug is pulled. */
  async kill(): Promise<void> {
    const { child } = this;
    this.child = undefined;
    if (!child || child.exitCode !== null) return;
    const gone = once(child, 'exit');
    child.kill('SIGKILL');
    await gone;
  }

  /** The next start is of a newer release: another page, with other names for its files. */
  release(): void {
    const newer = join(this.folder, 'newer');
    cpSync(join(ROOT, 'dist'), join(newer, 'dist'), { recursive: true });
    cpSync(join(ROOT, 'package.json'), join(newer, 'package.json'));
    symlinkSync(join(ROOT, 'node_modules'), join(newer, 'node_modules'));
    const web = join(newer, 'dist/web');
    const [index] = readdirSync(join(web, 'assets')).filter((name) => /^index-.*\.js$/.test(name));
    const renamed = index!.replace(/^index-/, 'index-newer-');
    for (const file of readdirSync(web, { recursive: true, encoding: 'utf8' })) {
      if (!/\.(js|html)$/.test(file)) continue;
      const text = readFileSync(join(web, file), 'utf8').replaceAll(index!, renamed);
      writeFileSync(join(web, file === join('assets', index!) ? join('assets', renamed) : file), text);
    }
    rmSync(join(web, 'assets', index!));
    const worker = readFileSync(join(web, 'worker.js'), 'utf8');
    writeFileSync(join(web, 'worker.js'), worker.replace(/"([0-9a-f]{12})"/, '"newernewer00"'));
    this.from = newer;
  }

  async end(): Promise<void> {
    await this.kill();
    rmSync(this.folder, { recursive: true, force: true });
  }
}
