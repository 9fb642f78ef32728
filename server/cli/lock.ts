/**
 * One process writes. Whoever works on a data folder holds its lock: a file that
 * names the process and, when it is a server, the address through which others
 * are to work. A lock whose process has died is taken over.
 */
import { linkSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';

export const LOCK = 'wareboard.lock';

export interface Holder {
  readonly pid: number;
  /** Name of the machine: a process number means nothing on another. */
  readonly machine: string;
  /** When the process began, as the system tells it; told where a number has been given out again. */
  readonly born?: string;
  /** Made for this lock; the server tells it at /api/health. */
  readonly instance: string;
  /** Of the server; absent while the folder is only worked on from the command line. */
  readonly address?: string;
}

export interface Lock {
  readonly holder: Holder;
  /** Says where the server can be reached. */
  publish(address: string): void;
  release(): void;
}

/** Takes the lock, or says who holds it. */
export function takeLock(dir: string, instance: string): Lock | Holder {
  mkdirSync(dir, { recursive: true });
  const path = join(dir, LOCK);
  const mine: Holder = { pid: process.pid, machine: hostname(), born: bornAt(process.pid), instance };
  for (;;) {
    if (place(path, mine)) return lockOf(path, mine);
    const text = read(path);
    if (text === undefined) continue;
    const holder = parse(text);
    if (holder !== undefined && isAlive(holder)) return holder;
    takeAway(path, text, instance);
  }
}

export const isLock = (taken: Lock | Holder): taken is Lock => 'release' in taken;

function lockOf(path: string, holder: Holder): Lock {
  const isMine = () => parse(read(path) ?? '')?.instance === holder.instance;
  return {
    holder,
    publish(address) {
      const next = `${path}.${holder.instance}`;
      writeFileSync(next, JSON.stringify({ ...holder, address }));
      renameSync(next, path);
    },
    release() {
      if (isMine()) rmSync(path, { force: true });
    },
  };
}

/** The file appears whole or not at all: it is written aside, and a link does not replace. */
function place(path: string, holder: Holder): boolean {
  const aside = `${path}.${holder.instance}`;
  writeFileSync(aside, JSON.stringify(holder));
  try {
    linkSync(aside, path);
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false;
    throw error;
  } finally {
    rmSync(aside, { force: true });
  }
}

/**
 * Takes a dead process's lock out of the way. Two may try at once: only one can move
 * a file, and who finds that it moved another lock than the dead one puts it back.
 */
function takeAway(path: string, dead: string, instance: string): void {
  const aside = `${path}.dead.${instance}`;
  try {
    renameSync(path, aside);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return;
    throw error;
  }
  if (read(aside) !== dead) linkSync(aside, path);
  rmSync(aside, { force: true });
}

function read(path: string): string | undefined {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return undefined;
  }
}

function parse(text: string): Holder | undefined {
  try {
    const holder = JSON.parse(text) as Holder;
    return Number.isInteger(holder.pid) && typeof holder.instance === 'string' ? holder : undefined;
  } catch {
    return undefined;
  }
}

function isAlive(holder: Holder): boolean {
  if (holder.machine !== hostname()) return true;
  try {
    process.kill(holder.pid, 0);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ESRCH') return false;
  }
  const born = bornAt(holder.pid);
  return born === undefined || holder.born === undefined || born === holder.born;
}

/** Field 22 of /proc/PID/stat (proc(5)); only Linux has it. The name before it may hold blanks. */
function bornAt(pid: number): string | undefined {
  const stat = read(`/proc/${pid}/stat`);
  return stat?.slice(stat.lastIndexOf(')') + 2).split(' ')[19];
}
