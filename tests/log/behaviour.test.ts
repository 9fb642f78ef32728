/** What the log promises, held against every home it can have. */
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { ClaimTaken, CommandReused, type EventLog, StreamMoved, Unkeepable } from '../../server/log/log.ts';
import { begun, command } from '../support/appends.ts';
import { HOMES, type Housed } from '../support/homes.ts';

for (const { name, runsHere, make } of HOMES)
  describe.skipIf(!runsHere)(`the log ${name}`, () => promises(make));

function promises(make: () => Promise<Housed>): void {
  let home: Housed;
  let log: EventLog;
  beforeEach(async () => {
    home = await make();
    log = home.log;
  });
  afterEach(() => home.end());

  test('an empty log has an empty head, no entries and nothing to complain of', async () => {
    expect(await log.head()).toEqual({ count: 0, hash: '0'.repeat(64) });
    expect(await log.read(0, 10)).toEqual([]);
    expect(await log.verify()).toEqual({ entries: 0, head: { count: 0, hash: '0'.repeat(64) } });
  });

  test('what was recorded is read back with its place and time', async () => {
    const receipt = await log.append(
      command(1, [
        begun('KH4TA', { claims: ['mark:KH4TA'] }),
        begun('KH4TB', { happenedAt: '2026-05-01T10:15:00+01:00' }),
      ]),
    );
    expect(receipt).toEqual({ outcome: 'recorded', first: 1, last: 2 });
    expect(await log.read(0, 10)).toEqual([
      {
        seq: 1,
        command: '01968a00-0000-7000-8000-000000000001',
        part: 0,
        name: 'piece.begun',
        version: 1,
        happenedAt: '2026-05-01',
        recordedAt: '2026-05-01T09:00:00.000Z',
        who: 'person-1',
        device: 'device-1',
        streams: ['piece:KH4TA'],
        claims: ['mark:KH4TA'],
        data: { piece: 'KH4TA', count: 1, form: 'mug', clay: 'Fell White stoneware' },
      },
      expect.objectContaining({
        seq: 2,
        part: 1,
        happenedAt: '2026-05-01T10:15:00+01:00',
        streams: ['piece:KH4TB'],
      }),
    ]);
  });

  test('text in any script, and numbers small and large, come back as they went in', async () => {
    const data = {
      note: 'Große Schüssel, 茶碗, كوب, 🏺 "rim" \\ line\nbreak \u2028 \u007f é e\u0301',
      numbers: [
        0,
        -1,
        0.1,
        1e-7,
        5e-324,
        9007199254740991,
        -9007199254740991,
        1.7976931348623157e308 / 1e300,
      ],
      nested: { b: [true, false, null, {}, []], a: '', ключ: 'ö' },
    };
    await log.append(command(1, [begun('KH4TA', { data })]));
    expect((await log.read(0, 1))[0]?.data).toEqual(data);
    expect((await log.verify()).broken).toBeUndefined();
  });

  test('sending a command again records nothing and gives the first receipt', async () => {
    const twice = command(1, [begun('KH4TA'), begun('KH4TB')]);
    await log.append(twice);
    await log.append(command(2, [begun('KH4TC')]));
    expect(await log.append(twice)).toEqual({ outcome: 'repeated', first: 1, last: 2 });
    expect((await log.head()).count).toBe(3);
    expect(await log.receipt(twice.command)).toEqual({ outcome: 'repeated', first: 1, last: 2 });
    expect(await log.receipt('never sent')).toBeUndefined();
  });

  test('a repeat is harmless even where its expectations and claims no longer hold', async () => {
    const first = command(1, [begun('KH4TA', { claims: ['mark:KH4TA'] })], { expect: { 'piece:KH4TA': 0 } });
    await log.append(first);
    expect((await log.append(first)).outcome).toBe('repeated');
  });

  test('a command id used for something else is refused', async () => {
    await log.append(command(1, [begun('KH4TA')]));
    const refused = log.append(command(1, [begun('KH4TB')]));
    await expect(refused).rejects.toBeInstanceOf(CommandReused);
    expect((await log.head()).count).toBe(1);
  });

  test('a command decided on an older state of a stream is refused, and says how many entries there are', async () => {
    await log.append(command(1, [begun('KH4TA')]));
    const late = log.append(command(2, [begun('KH4TA')], { expect: { 'piece:KH4TA': 0 } }));
    await expect(late).rejects.toThrow(new StreamMoved('piece:KH4TA', 0, 1));
    const right = await log.append(
      command(3, [begun('KH4TA')], { expect: { 'piece:KH4TA': 1, 'piece:new': 0 } }),
    );
    expect(right).toEqual({ outcome: 'recorded', first: 2, last: 2 });
  });

  test('a foot mark goes on one piece only, until it is given up', async () => {
    await log.append(command(1, [begun('KH4TA', { claims: ['mark:KH4TA'] })]));
    const second = log.append(command(2, [begun('other', { claims: ['mark:KH4TA'] })]));
    await expect(second).rejects.toThrow(new ClaimTaken('mark:KH4TA', 1));
    await log.append(command(3, [begun('KH4TA', { releases: ['mark:KH4TA', 'mark:never-held'] })]));
    await log.append(command(4, [begun('other', { claims: ['mark:KH4TA'] })]));
    const third = log.append(command(5, [begun('third', { claims: ['mark:KH4TA'] })]));
    await expect(third).rejects.toThrow(new ClaimTaken('mark:KH4TA', 3));
    expect((await log.verify()).broken).toBeUndefined();
  });

  test('one entry may hand a claim on, but not take one twice in a command', async () => {
    await log.append(command(1, [begun('a', { claims: ['order:7'] })]));
    await log.append(command(2, [begun('b', { releases: ['order:7'], claims: ['order:7'] })]));
    const twice = log.append(
      command(3, [begun('c', { claims: ['order:8'] }), begun('d', { claims: ['order:8'] })]),
    );
    await expect(twice).rejects.toThrow(new ClaimTaken('order:8', 3));
    await log.append(
      command(4, [
        begun('c', { claims: ['order:8'] }),
        begun('d', { releases: ['order:8'] }),
        begun('e', { claims: ['order:8'] }),
      ]),
    );
    expect(await log.verify()).toEqual({ entries: 5, head: await log.head() });
  });

  test('of a command that is refused nothing is recorded', async () => {
    const refused = command(1, [begun('a'), begun('b', { claims: ['m'] }), begun('c', { claims: ['m'] })]);
    await expect(log.append(refused)).rejects.toBeInstanceOf(ClaimTaken);
    expect(await log.read(0, 10)).toEqual([]);
    expect(await log.receipt(refused.command)).toBeUndefined();
  });

  test('of many commands each is judged on its own, and sees those before it', async () => {
    const results = await log.appendAll([
      command(1, [begun('a', { claims: ['m'] })]),
      command(2, [begun('a')], { expect: { 'piece:a': 1 } }),
      command(3, [begun('a')], { expect: { 'piece:a': 1 } }),
      command(4, [begun('b', { claims: ['m'] })]),
      command(1, [begun('a', { claims: ['m'] })]),
      command(1, [begun('z')]),
      command(5, [begun('c', { data: { note: 'NUL \u0000' } })]),
      command(6, [begun('d')]),
    ]);
    expect(results).toEqual([
      { outcome: 'recorded', first: 1, last: 1 },
      { outcome: 'recorded', first: 2, last: 2 },
      expect.any(StreamMoved),
      expect.any(ClaimTaken),
      { outcome: 'repeated', first: 1, last: 1 },
      expect.any(CommandReused),
      expect.any(Unkeepable),
      { outcome: 'recorded', first: 3, last: 3 },
    ]);
    expect(await log.verify()).toEqual({ entries: 3, head: await log.head() });
  });

  test('many at once all get their own place, without gaps', async () => {
    const receipts = await Promise.all(
      Array.from({ length: 200 }, (_, n) => log.append(command(n, [begun(`p${n % 7}`), begun(`q${n}`)]))),
    );
    expect(receipts.map((it) => it.first).sort((a, b) => a - b)).toEqual(
      Array.from({ length: 200 }, (_, n) => 2 * n + 1),
    );
    const entries = await log.read(0, 1000);
    expect(entries.map((it) => it.seq)).toEqual(Array.from({ length: 400 }, (_, n) => n + 1));
    expect((await log.verify()).broken).toBeUndefined();
  });

  test('a stream holds the entries that name it, in order, and an unknown one is empty', async () => {
    await log.append(command(1, [begun('a'), begun('b', { streams: ['piece:b', 'firing:9'] })]));
    await log.append(command(2, [begun('a', { streams: ['firing:9', 'piece:a'] })]));
    const streams = await log.streams(['piece:a', 'firing:9', 'piece:none']);
    expect(
      [...streams].map(([name, { entries, version }]) => [name, entries.map((it) => it.seq), version]),
    ).toEqual([
      ['piece:a', [1, 3], 2],
      ['firing:9', [2, 3], 2],
      ['piece:none', [], 0],
    ]);
    expect(streams.get('firing:9')?.entries).toEqual((await log.read(0, 9)).filter((it) => it.seq > 1));
  });

  test('reading goes on after any place, by any number, past a page', async () => {
    await log.append(
      command(
        1,
        Array.from({ length: 2500 }, (_, n) => begun(`p${n}`)),
      ),
    );
    expect((await log.read(0, 5000)).length).toBe(2500);
    expect((await log.read(1200, 1100)).map((it) => it.seq)).toEqual(
      Array.from({ length: 1100 }, (_, n) => 1201 + n),
    );
    expect(await log.read(2500, 10)).toEqual([]);
    expect((await log.read(2498, 1)).map((it) => it.seq)).toEqual([2499]);
  });

  test('listeners hear of entries once they are durable, in order, and not of repeats', async () => {
    const heard: number[] = [];
    const stop = log.onAppended((head) => heard.push(head.count));
    await log.append(command(1, [begun('a')]));
    await log.append(command(1, [begun('a')]));
    await log.append(command(2, [begun('b')]));
    stop();
    await log.append(command(3, [begun('c')]));
    expect(heard).toEqual([1, 2]);
  });

  test('a command without entries, or with what cannot be kept, is refused by name', async () => {
    await expect(log.append(command(1, []))).rejects.toBeInstanceOf(Unkeepable);
    const bad = log.append(
      command(1, [begun('a'), begun('b', { data: { layers: [{ coats: Number.NaN }] } })]),
    );
    await expect(bad).rejects.toThrow(/^entries\[1\]\.data\.layers\[0\]\.coats: /);
    await expect(log.append(command(1, [begun('a', { streams: ['s', 's'] })]))).rejects.toThrow(/twice/);
    expect((await log.head()).count).toBe(0);
  });

  test('closed and opened again, it goes on where it was', async () => {
    await log.append(command(1, [begun('a', { claims: ['m'] })]));
    const before = await log.read(0, 10);
    if (home.reopen === undefined) return expect(await log.verify()).toMatchObject({ entries: 1 });
    log = await home.reopen();
    expect(await log.read(0, 10)).toEqual(before);
    await expect(log.append(command(2, [begun('b', { claims: ['m'] })]))).rejects.toBeInstanceOf(ClaimTaken);
    expect(await log.append(command(3, [begun('b')]))).toEqual({ outcome: 'recorded', first: 2, last: 2 });
    expect(await log.verify()).toEqual({ entries: 2, head: await log.head() });
  });

  test('after closing, an append is refused and not lost in silence', async () => {
    await log.close();
    await expect(log.append(command(1, [begun('a')]))).rejects.toThrow('closed');
  });
}
