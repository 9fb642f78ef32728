import {
  appendFileSync,
  copyFileSync,
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { checkBackup } from '../../server/backup/check.ts';
import { makeBackup } from '../../server/backup/make.ts';
import { LOCK } from '../../server/cli/lock.ts';
import { openLog } from '../../server/log/open.ts';
import { openPeople } from '../../server/people/store.ts';
import { temporary } from '../support/folder.ts';
import { steppingClock } from '../support/log.ts';
import { atTheDesk } from './at-the-desk.ts';

const clock = steppingClock();

/** Records in the folder's log, a command for each number. */
async function record(dir: string, ...numbers: number[]) {
  const log = await openLog({ dir, clock });
  for (const number of numbers) {
    const command = `01970000-0000-7000-8000-${String(number).padStart(12, '0')}`;
    const entry = {
      name: 'piece.begun',
      version: 1,
      happenedAt: '2026-05-01',
      streams: [`piece:${number}`],
      data: { number },
    };
    await log.append({
      command,
      fingerprint: '0'.repeat(64),
      who: 'maker',
      device: 'here',
      expect: {},
      entries: [entry],
    });
  }
  await log.close();
}

async function counted(dir: string): Promise<number> {
  const log = await openLog({ dir, clock });
  const { count } = await log.head();
  await log.close();
  return count;
}

async function studioFolder() {
  const dir = join(temporary(), 'data');
  await record(dir, 1, 2, 3);
  const people = openPeople(join(dir, 'people.db'));
  await people.keep([{ id: 'note-1', text: 'Handle pulled twice.' }]);
  await people.close();
  return dir;
}

const backedUp = async (dir: string) => {
  const into = join(temporary(), 'backup');
  await makeBackup({ dir, into, clock });
  return into;
};

test('a backup holds the log, its outside head and the texts, and says what it holds', async () => {
  const into = await backedUp(await studioFolder());
  expect(readdirSync(into).sort()).toEqual(['backup.json', 'log.db', 'log.head', 'people.db']);
  expect(await checkBackup(into)).toMatchObject({ entries: 3, version: 2 });
});

test('it can be made while the log is open and being written', async () => {
  const dir = await studioFolder();
  const log = await openLog({ dir, clock });
  const into = await backedUp(dir);
  await log.close();
  expect(await counted(into)).toBe(3);
});

test('a folder that is there already is never written into', async () => {
  const { type } = atTheDesk();
  const into = temporary();
  expect(await type('backup', into)).toMatchObject({
    code: 1,
    err: expect.stringContaining('is there already'),
  });
  expect(readdirSync(into)).toEqual([]);
});

test('a log that has lost its last entries is not backed up as if it were whole', async () => {
  const dir = await studioFolder();
  const fuller = join(temporary(), 'fuller');
  cpSync(dir, fuller, { recursive: true });
  await record(fuller, 4);
  copyFileSync(join(fuller, 'log.head'), join(dir, 'log.head'));
  await expect(backedUp(dir)).rejects.toThrow(
    'The last entries are missing: 4 were recorded, and 3 are there.',
  );
});

test('a log that has lost its last entries goes on with what is left when the operator says so', async () => {
  const dir = await studioFolder();
  const fuller = join(temporary(), 'fuller');
  cpSync(dir, fuller, { recursive: true });
  await record(fuller, 4);
  copyFileSync(join(fuller, 'log.head'), join(dir, 'log.head'));
  await expect(record(dir, 5)).rejects.toThrow(/missing/);
  expect(await atTheDesk({ dir }).type('verify', '--accept-loss')).toEqual({
    code: 0,
    out: 'The log goes on with the 3 entries that are there.\n',
    err: '',
  });
  await record(dir, 5);
  expect(await counted(await backedUp(dir))).toBe(4);
});

describe('restoring', () => {
  const restoring = (dir: string) => atTheDesk({ dir });

  test('lets in no device that was sent away since, and no other passphrase', async () => {
    const dir = await studioFolder();
    const network = join(dir, 'network');
    mkdirSync(network);
    writeFileSync(join(network, 'devices.json'), 'as the backup was made');
    const into = join(temporary(), 'backup');
    await makeBackup({ dir, into, clock });
    expect(existsSync(join(into, 'network'))).toBe(false);
    writeFileSync(join(network, 'devices.json'), 'one was sent away');
    expect((await atTheDesk({ dir }).type('restore', into)).code).toBe(0);
    expect(readFileSync(join(network, 'devices.json'), 'utf8')).toBe('one was sent away');
  });

  test('puts the backup where the record was, and keeps what was there aside', async () => {
    const dir = await studioFolder();
    const backup = await backedUp(dir);
    const { code, out } = await restoring(dir).type('restore', backup);
    expect(code).toBe(0);
    const aside = /kept in (.+)\.\n/.exec(out)![1]!;
    expect(await counted(aside)).toBe(3);
    expect(await counted(dir)).toBe(3);
    expect(existsSync(join(aside, LOCK))).toBe(false);
    const people = openPeople(join(dir, 'people.db'));
    expect(await people.read(['note-1'])).toEqual(new Map([['note-1', 'Handle pulled twice.']]));
    await people.close();
  });

  test('works on a machine that has no record yet', async () => {
    const backup = await backedUp(await studioFolder());
    const dir = join(temporary(), 'new', 'data');
    expect((await restoring(dir).type('restore', backup)).code).toBe(0);
    expect(await counted(dir)).toBe(3);
  });

  test('is refused over a log that holds more, unless it is forced', async () => {
    const dir = await studioFolder();
    const backup = await backedUp(dir);
    await record(dir, 4, 5);
    const refused = await restoring(dir).type('restore', backup);
    expect(refused).toMatchObject({
      code: 1,
      err: expect.stringContaining('holds 2 entries more than the backup'),
    });
    expect(await counted(dir)).toBe(5);
    expect((await restoring(dir).type('restore', backup, '--force')).code).toBe(0);
    expect(await counted(dir)).toBe(3);
  });

  test('is refused over another studio’s log of the same length', async () => {
    const backup = await backedUp(await studioFolder());
    const other = join(temporary(), 'data');
    await record(other, 7, 8, 9);
    expect(await restoring(other).type('restore', backup)).toMatchObject({
      code: 1,
      err: expect.stringContaining('is another one'),
    });
  });

  test('mends a log that cannot be opened any more', async () => {
    const dir = await studioFolder();
    const backup = await backedUp(dir);
    writeFileSync(join(dir, 'log.db'), 'this was a log once');
    expect((await restoring(dir).type('restore', backup)).code).toBe(0);
    expect(await counted(dir)).toBe(3);
  });

  test.each([
    [
      'a file of it was changed',
      (backup: string) => appendFileSync(join(backup, 'people.db'), 'x'),
      'people.db in the backup',
    ],
    [
      'a file of it was cut short',
      (backup: string) => truncateSync(join(backup, 'log.db'), 4096),
      'log.db in the backup',
    ],
    ['a file of it is missing', (backup: string) => rmSync(join(backup, 'log.head')), 'log.head is missing'],
    [
      'its list cannot be read',
      (backup: string) => writeFileSync(join(backup, 'backup.json'), '{'),
      'cannot be read',
    ],
    ['its list names a file outside', (backup: string) => listOutside(backup), 'cannot be read'],
    ['it is no backup', (backup: string) => rmSync(join(backup, 'backup.json')), 'holds no backup'],
  ])('is refused when %s, and changes nothing', async (_what, spoil, sentence) => {
    const dir = await studioFolder();
    const backup = await backedUp(dir);
    spoil(backup);
    const { code, err } = await restoring(dir).type('restore', backup);
    expect(code).toBe(1);
    expect(err).toContain(sentence);
    expect(await counted(dir)).toBe(3);
    expect(readdirSync(join(dir, '..'))).toEqual(['data']);
  });

  test('is refused while somebody works on the folder', async () => {
    const dir = await studioFolder();
    const backup = await backedUp(dir);
    writeFileSync(
      join(dir, LOCK),
      JSON.stringify({ pid: process.pid, machine: hostname(), instance: 'other' }),
    );
    expect(await restoring(dir).type('restore', backup)).toMatchObject({
      code: 1,
      err: expect.stringContaining('is in use'),
    });
  });
});

function listOutside(backup: string): void {
  const path = join(backup, 'backup.json');
  const seal = JSON.parse(readFileSync(path, 'utf8'));
  seal.files['../../evil'] = { bytes: 1, sha256: '0'.repeat(64) };
  mkdirSync(join(backup, 'x'));
  writeFileSync(path, JSON.stringify(seal));
}
