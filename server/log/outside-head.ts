/**
 * The outside head: how many entries the log has acknowledged and the hash of the last, in a small
 * file beside the database. A shortened write-ahead file passes every check of the database's own;
 * only this file shows that the last entries are gone.
 *
 * Two slots are written in turn, each with a checksum and in a disk block of its own, so a write that
 * was torn leaves the one before it readable.
 */
import {
  closeSync,
  existsSync,
  fdatasyncSync,
  fsyncSync,
  ftruncateSync,
  openSync,
  readSync,
  writeSync,
} from 'node:fs';
import { dirname } from 'node:path';
import { sha256 } from './chain.ts';
import { type Head, LogDamaged } from './log.ts';

const SLOT = 4096;
const LINE = /^wareboard-head 1 (\d{1,16}) ([0-9a-f]{64}) ([0-9a-f]{64})\n/;

/** The calls that reach the disk, to be watched or broken in tests. */
export interface Disk {
  write(fd: number, bytes: Buffer, at: number): void;
  sync(fd: number): void;
}

export const realDisk: Disk = {
  write: (fd, bytes, at) => {
    writeSync(fd, bytes, 0, bytes.length, at);
  },
  sync: (fd) => fdatasyncSync(fd),
};

export class OutsideHead {
  private slot: 0 | 1;
  private constructor(
    private readonly fd: number,
    private current: Head,
    slot: 0 | 1,
    private readonly disk: Disk,
  ) {
    this.slot = slot;
  }

  /** Undefined when the file is not there. @throws LogDamaged when neither slot can be read */
  static open(path: string, disk: Disk = realDisk): OutsideHead | undefined {
    if (!existsSync(path)) return undefined;
    const fd = openSync(path, 'r+');
    const found = newest(fd);
    if (found !== undefined) return new OutsideHead(fd, found.head, found.slot, disk);
    closeSync(fd);
    throw new LogDamaged(`The outside head ${path} cannot be read: both of its slots are damaged.`);
  }

  /** Makes the file, or puts `head` in the place of whatever it held. */
  static create(path: string, head: Head, disk: Disk = realDisk): OutsideHead {
    const fd = openSync(path, existsSync(path) ? 'r+' : 'w+');
    ftruncateSync(fd, 2 * SLOT);
    const outside = new OutsideHead(fd, head, 1, disk);
    outside.write(head);
    outside.write(head);
    syncFolder(dirname(path));
    return outside;
  }

  read(): Head {
    return this.current;
  }

  /** Returns when the disk has it. */
  write(head: Head): void {
    const slot = this.slot === 0 ? 1 : 0;
    this.disk.write(this.fd, line(head), slot * SLOT);
    this.disk.sync(this.fd);
    this.slot = slot;
    this.current = head;
  }

  close(): void {
    closeSync(this.fd);
  }
}

/** Makes the names of files just made in the folder outlive a power failure. */
export function syncFolder(folder: string): void {
  const fd = openSync(folder, 'r');
  fsyncSync(fd);
  closeSync(fd);
}

/** The outside head as it stands on disk, without keeping the file open. */
export function readOutsideHead(path: string): Head | undefined {
  const outside = OutsideHead.open(path);
  outside?.close();
  return outside?.read();
}

function line(head: Head): Buffer {
  const text = `wareboard-head 1 ${head.count} ${head.hash}`;
  return Buffer.from(`${text} ${sha256(text)}\n`);
}

function newest(fd: number): { head: Head; slot: 0 | 1 } | undefined {
  const slots = ([0, 1] as const).flatMap((slot) => {
    const head = readSlot(fd, slot);
    return head === undefined ? [] : [{ head, slot }];
  });
  return slots.sort((a, b) => b.head.count - a.head.count)[0];
}

function readSlot(fd: number, slot: number): Head | undefined {
  const bytes = Buffer.alloc(SLOT);
  const length = readSync(fd, bytes, 0, SLOT, slot * SLOT);
  const match = LINE.exec(bytes.toString('latin1', 0, length));
  if (match === null) return undefined;
  const [, count, hash, checksum] = match;
  if (sha256(`wareboard-head 1 ${count} ${hash}`) !== checksum) return undefined;
  return { count: Number(count), hash: hash! };
}
