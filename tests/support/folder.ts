/** Folders that a test throws away. */
import { accessSync, constants, mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

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

export const quickFolder = (): string => mkdtempSync(join(quickest(), 'wareboard-'));
