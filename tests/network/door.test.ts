import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { Door } from '../../server/network/door.ts';
import { COST } from '../../server/network/passphrase.ts';

const RIGHT = 'marram over cuttle, twice';
const QUICK = { N: 2 ** 10, r: 8, p: 1 };
const folders: string[] = [];
afterEach(() => {
  for (const each of folders.splice(0)) rmSync(each, { recursive: true, force: true });
});

async function door(passphrase: string | undefined = RIGHT) {
  const folder = mkdtempSync(join(tmpdir(), 'wareboard-door-'));
  folders.push(folder);
  let now = new Date('2026-05-01T09:00:00Z').getTime();
  const clock = () => new Date(now);
  const open = () => new Door(folder, clock, QUICK);
  const made = open();
  if (passphrase !== undefined) await made.setPassphrase(passphrase);
  return {
    folder,
    door: made,
    reopened: open,
    pass: (seconds: number) => {
      now += seconds * 1000;
    },
    tries: (passphrase: string, address = '192.168.1.20', token?: string) =>
      made.signIn({ passphrase, name: 'Ansa’s phone', address, token }),
  };
}

const stays = (
  made: Awaited<ReturnType<typeof door>>,
  passphrase: string,
  address?: string,
  token?: string,
) => made.tries(passphrase, address, token).then((answer) => answer.outcome);

describe('the passphrase', () => {
  test('lets a device in, and a wrong one does not', async () => {
    const made = await door();
    expect(await stays(made, 'marram over cuttle, once')).toBe('wrong');
    expect(await stays(made, RIGHT)).toBe('in');
  });

  test('is the same with blanks around it and signs made in another way', async () => {
    const made = await door('Bräckén amber ﬁring');
    expect(await stays(made, ' Bra\u0308cke\u0301n amber firing ')).toBe('in');
  });

  test.each([
    ['short', /at least 8 characters, better 15/],
    ['        ', /at least 8 characters/],
    ['aaaaaaaaaaaaaaaaa', /guessed at once/],
    ['x1'.repeat(300), /at most 500/],
  ])('cannot be %j', async (text, why) => {
    const made = await door();
    await expect(made.door.setPassphrase(text)).rejects.toThrow(why);
    expect(await stays(made, RIGHT)).toBe('in');
  });

  test('stands nowhere in the folder, nor does the secret of a device', async () => {
    const made = await door();
    const answer = await made.tries(RIGHT);
    const token = answer.outcome === 'in' ? answer.token : '';
    expect(token).toMatch(/^[\w-]{43}$/);
    const all = readdirSync(made.folder)
      .map((name) => readFileSync(join(made.folder, name), 'utf8'))
      .join();
    expect(all).toContain('scrypt');
    expect(all).not.toContain(RIGHT);
    expect(all).not.toContain(token);
  });

  test('costs a guesser what OWASP advises', () => {
    expect(COST).toEqual({ N: 131_072, r: 8, p: 1 });
  });

  test('without one nobody comes in', async () => {
    const made = await door();
    rmSync(join(made.folder, 'passphrase.json'));
    expect(await stays(made, RIGHT)).toBe('wrong');
    expect(await stays(made, '')).toBe('wrong');
  });

  test('a new one signs every device out', async () => {
    const made = await door();
    const answer = await made.tries(RIGHT);
    const token = answer.outcome === 'in' ? answer.token : undefined;
    const gone: string[] = [];
    made.door.onGone((device) => gone.push(device));
    await made.door.setPassphrase('gannet grey inside only');
    expect(made.door.who(token)).toBeUndefined();
    expect(made.door.list()).toEqual([]);
    expect(gone).toHaveLength(1);
  });
});

describe('wrong tries', () => {
  const guess = async (
    made: Awaited<ReturnType<typeof door>>,
    times: number,
    address?: string,
    token?: string,
  ) => {
    for (let n = 0; n < times; n += 1) await made.tries(`guess ${n}`, address, token);
  };

  test('three cost nothing; then the waits double, and the right one has to wait as well', async () => {
    const made = await door();
    const waits: number[] = [];
    for (let n = 0; n < 14; n += 1) {
      const answer = await made.tries(`guess ${n}`);
      if (answer.outcome === 'wait') {
        waits.push(answer.seconds);
        expect(await made.tries(RIGHT)).toEqual(answer);
        made.pass(answer.seconds);
        expect((await made.tries(`guess ${n} again`)).outcome).toBe('wrong');
      }
    }
    expect(waits).toEqual([2, 4, 8, 16, 32, 64, 128, 256, 512, 900, 900]);
  });

  test('never lock for good: after the longest wait the right one comes in, and the count begins anew', async () => {
    const made = await door();
    for (let n = 0; n < 40; n += 1) {
      await made.tries(`guess ${n}`);
      made.pass(900);
    }
    expect(await stays(made, RIGHT)).toBe('in');
    await guess(made, 3);
    expect((await made.tries('guess')).outcome).toBe('wait');
  });

  test('of one address do not keep another waiting', async () => {
    const made = await door();
    await guess(made, 8, '192.168.1.66');
    expect(await stays(made, RIGHT, '192.168.1.66')).toBe('wait');
    expect(await stays(made, RIGHT, '192.168.1.20')).toBe('in');
  });

  test('from many addresses slow each other down', async () => {
    const made = await door();
    for (let n = 0; n < 12; n += 1) await made.tries('guess', `192.168.1.${n + 30}`);
    expect(await made.tries('guess', '192.168.1.99')).toEqual({ outcome: 'wait', seconds: 2 });
  });

  test('of others do not keep out a device that was in before', async () => {
    const made = await door();
    const first = await made.tries(RIGHT);
    const token = first.outcome === 'in' ? first.token : undefined;
    const { id } = made.door.list()[0]!;
    made.door.signOut(id);
    for (let n = 0; n < 40; n += 1) await made.tries('guess', `192.168.1.${n + 30}`);
    expect(await stays(made, RIGHT, '192.168.1.20')).toBe('wait');
    const again = await made.tries(RIGHT, '192.168.1.20', token);
    expect(again).toMatchObject({ outcome: 'in', device: { id } });
  });

  test('at the same moment are counted one by one', async () => {
    const made = await door();
    const all = await Promise.all(Array.from({ length: 20 }, (_, n) => stays(made, `guess ${n}`)));
    expect(all.filter((each) => each === 'wrong')).toHaveLength(3);
    expect(all.filter((each) => each === 'wait')).toHaveLength(17);
  });

  test('a clock that is set back makes nobody wait', async () => {
    const made = await door();
    await guess(made, 12);
    made.pass(-3600);
    expect(await stays(made, RIGHT)).toBe('in');
  });
});

describe('a device', () => {
  const enter = async (made: Awaited<ReturnType<typeof door>>, name = 'Ansa’s phone', token?: string) => {
    const answer = await made.door.signIn({ passphrase: RIGHT, name, address: '192.168.1.20', token });
    if (answer.outcome !== 'in') throw new Error(answer.outcome);
    return answer;
  };

  test('is known by its own secret, after a restart too', async () => {
    const made = await door();
    const { token, device } = await enter(made);
    expect(made.door.who(token)).toEqual(device);
    expect(made.reopened().who(token)).toEqual(device);
    expect(made.door.who(`${token}x`)).toBeUndefined();
    expect(made.door.who(undefined)).toBeUndefined();
  });

  test('is sent away alone', async () => {
    const made = await door();
    const phone = await enter(made, 'Ansa’s phone');
    const tablet = await enter(made, 'Tablet by the kiln');
    expect(
      made.door
        .list()
        .map(({ name }) => name)
        .sort(),
    ).toEqual(['Ansa’s phone', 'Tablet by the kiln']);
    expect(made.door.sendAway(phone.device.id)).toBe(true);
    expect(made.door.who(phone.token)).toBeUndefined();
    expect(made.door.who(tablet.token)).toBeDefined();
    expect(made.door.sendAway(phone.device.id)).toBe(false);
    expect(made.reopened().who(phone.token)).toBeUndefined();
  });

  test('shows when it was last seen', async () => {
    const made = await door();
    const { token } = await enter(made);
    made.pass(7200);
    made.door.who(token);
    expect(made.door.list()[0]).toMatchObject({
      since: '2026-05-01T09:00:00.000Z',
      seen: '2026-05-01T11:00:00.000Z',
    });
  });

  test('that did not come for more than a year says the passphrase again and keeps its place', async () => {
    const made = await door();
    const { token, device } = await enter(made);
    made.pass(401 * 86_400);
    expect(made.door.who(token)).toBeUndefined();
    expect((await enter(made, 'Ansa’s phone', token)).device).toMatchObject({
      id: device.id,
      since: device.since,
    });
  });
});
