/** Folders that a test needs for itself: they are gone when its file is done. */
import { accessSync, constants, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll } from 'vitest';

/** In memory where the system offers it: what is tested there is not the disk, and waiting for it is most of the time. */
const QUICK = '/dev/shm';

function quickest(): string {
  try {
    accessSync(QUICK, constants.W_OK);
    return QUICK;
  } catch {
    return tmpdir();
  }
}

const made: string[] = [];
afterAll(() => {
  for (const folder of made.splice(0)) rmSync(folder, { recursive: true, force: true });
});

function folderIn(parent: string, name: string): string {
  const folder = mkdtempSync(join(parent, `wareboard-${name}-`));
  made.push(folder);
  return folder;
}

export const temporary = (name = 'test'): string => folderIn(tmpdir(), name);
export const quickFolder = (): string => folderIn(quickest(), 'quick');
