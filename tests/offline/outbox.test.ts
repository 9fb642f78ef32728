/** The outbox of one device: what is kept, what is sent, what stays in sight. */
import 'fake-indexeddb/auto';
import { openDB } from 'idb';
import { beforeEach, describe, expect, test } from 'vitest';
import type { WaitingHere } from '../../web/api/reach.ts';
import { type Database, openDatabase, STEPS } from '../../web/device/database.ts';
import { markedWaiting } from '../../web/device/room.ts';
import { lineTo } from '../../web/outbox/line.ts';
import { needsOf } from '../../web/outbox/needs.ts';
import { Outbox } from '../../web/outbox/outbox.ts';
import { type Answer, type Outcome, pause, sendAll } from '../../web/outbox/sender.ts';
import { OutboxStore } from '../../web/outbox/store.ts';
import type { NewUnsent, Unsent } from '../../web/outbox/unsent.ts';

let databases = 0;
let name: string;
let db: Promise<Database>;
let store: OutboxStore;
beforeEach(() => {
  databases += 1;
  name = `outbox-${databases}`;
  db = openDatabase(name);
  store = new OutboxStore(() => db);
});

const noted = (id: string, command: string, input: object, needs: readonly string[] = []): NewUnsent => ({
  ...{ id, command, input, needs, clock: '2026-05-01T10:15:00.000+01:00', sentence: id, where: '/' },
});
const recorded = (id: string): Outcome => ({ outcome: 'recorded', id, first: 1, last: 1 });
const refused = (id: string, code = 'not-possible-then'): Outcome => ({
  ...{ outcome: 'refused', id, refusal: { refused: true, code, sentence: 'No.' } },
});
const unheard = { settled: () => {}, watched: () => false, count: () => 0 };

/** Answers each order as it is told to; those not named are recorded. */
function answering(answers: Readonly<Record<string, Outcome>> = {}) {
  const sent: string[][] = [];
  const post = async (orders: readonly Unsent[]): Promise<Answer> => {
    sent.push(orders.map(({ id }) => id));
    return { told: orders.map(({ id }) => answers[id] ?? recorded(id)) };
  };
  return { sent, line: { post, bringFiles: async () => undefined } };
}
const states = async () => (await store.all()).map(({ id, state }) => `${id} ${state}`);

describe('what rests on what', () => {
  const fault = {
    id: 'f',
    command: 'fault.find',
    input: { piece: 'jug-0001.a', kind: 'runs', firing: 'G1' },
  };
  const grade = { id: 'g', command: 'piece.grade', input: { piece: 'jug-0001.a', first: 1, firing: 'G1' } };

  test('a grade rests on the fault noted before it on that lot, and on the end of its firing', () => {
    const end = { id: 'e', command: 'firing.end', input: { firing: 'G1' } };
    expect(needsOf(grade, [end, fault])).toEqual(['e', 'f']);
  });

  test('nothing rests on a piece that merely was in the same kiln, nor does drawing the kiln', () => {
    const other = { ...grade, id: 'h', input: { piece: 'bowl-0002', first: 1, firing: 'G1' } };
    expect(needsOf(other, [fault, grade])).toEqual([]);
    expect(needsOf({ id: 'd', command: 'firing.draw', input: { firing: 'G1' } }, [fault, grade])).toEqual([]);
  });

  test('what is noted after an undo rests on the undo', () => {
    const undo = { id: 'u', command: 'entry.strike', input: { command: 'g' } };
    expect(needsOf(undo, [fault, grade])).toEqual(['f', 'g']);
    expect(needsOf({ ...grade, id: 'again' }, [fault, grade, undo])).toEqual(['f', 'g', 'u']);
  });

  test('a packed piece takes its load along, a glaze its owner', () => {
    const pack = {
      id: 'p',
      command: 'firing.pack',
      input: { firing: 'G2', places: [{ piece: 'jug-0001' }] },
    };
    const person = { id: 'a', command: 'person.add', input: { person: 'student-1', name: 'Ida' } };
    const begin = {
      id: 'b',
      command: 'piece.begin',
      input: { piece: 'new-0001', owner: { kind: 'student', person: 'student-1' } },
    };
    expect(needsOf(fault, [pack])).toEqual(['p']);
    expect(needsOf(begin, [person])).toEqual(['a']);
  });
});

describe('sending', () => {
  test('goes in the order of noting, and what is taken leaves', async () => {
    await store.add([noted('one', 'piece.note', {}), noted('two', 'piece.note', {})]);
    await store.add([noted('three', 'piece.note', {})]);
    const { sent, line } = answering();
    expect(await sendAll(store, line, unheard)).toBe('done');
    expect(sent).toEqual([['one', 'two', 'three']]);
    expect(await states()).toEqual([]);
    expect((await store.sent()).map(({ id }) => id).sort()).toEqual(['one', 'three', 'two']);
    await store.dayHolds(1);
    expect(await store.sent()).toEqual([]);
  });

  test('keeps a refused one in sight, and what rests on it waiting; the rest goes', async () => {
    await store.add([
      noted('fault', 'fault.find', {}),
      noted('grade', 'piece.grade', {}, ['fault']),
      noted('other', 'piece.note', {}),
    ]);
    const held: Outcome = { outcome: 'held', id: 'grade', needs: 'fault' };
    const { line } = answering({ fault: refused('fault'), grade: held });
    await sendAll(store, line, unheard);
    expect(await states()).toEqual(['fault refused', 'grade waiting']);
    const { sent, line: next } = answering();
    await sendAll(store, next, unheard);
    expect(sent).toEqual([]);
  });

  test('asks a refused one again when the studio has recorded more, and then what waited with it', async () => {
    await store.add([noted('fault', 'fault.find', {}), noted('grade', 'piece.grade', {}, ['fault'])]);
    const held: Outcome = { outcome: 'held', id: 'grade', needs: 'fault' };
    await sendAll(store, answering({ fault: refused('fault'), grade: held }).line, {
      ...unheard,
      count: () => 5,
    });
    const { sent, line } = answering();
    await sendAll(store, line, { ...unheard, count: () => 6 });
    expect(sent).toEqual([['fault', 'grade']]);
    expect(await states()).toEqual([]);
  });

  test('does not ask again what only the user can decide', async () => {
    await store.add([noted('grade', 'piece.grade', {})]);
    await sendAll(store, answering({ grade: refused('grade', 'said-otherwise') }).line, unheard);
    const { sent, line } = answering();
    await sendAll(store, line, { ...unheard, count: () => 9 });
    expect(sent).toEqual([]);
  });

  test.each(['not-reached', 'signed-out', 'busy'] as const)(
    'changes nothing where it is %s',
    async (failed) => {
      await store.add([noted('one', 'piece.note', {})]);
      const line = { post: async (): Promise<Answer> => ({ failed }), bringFiles: async () => undefined };
      expect(await sendAll(store, line, unheard)).toBe(failed);
      expect(await states()).toEqual(['one waiting']);
    },
  );

  test('one that the studio cannot read does not hold up the others', async () => {
    await store.add([noted('bad', 'piece.note', {}), noted('good', 'piece.note', {})]);
    const cannot = { refused: true, code: 'bad-input', sentence: 'No such field.' } as const;
    const post = async (orders: readonly Unsent[]): Promise<Answer> =>
      orders.some(({ id }) => id === 'bad') ? { cannot } : { told: orders.map(({ id }) => recorded(id)) };
    await sendAll(store, { post, bringFiles: async () => undefined }, unheard);
    expect(await states()).toEqual(['bad refused']);
  });

  test('one over which the studio fails again and again is shown at last', async () => {
    await store.add([noted('bad', 'piece.note', {})]);
    const cannot = { refused: true, code: 'went-wrong', sentence: 'Something broke.' } as const;
    const line = { post: async (): Promise<Answer> => ({ cannot }), bringFiles: async () => undefined };
    expect(await sendAll(store, line, unheard)).toBe('busy');
    expect(await states()).toEqual(['bad waiting']);
    await sendAll(store, line, unheard);
    await sendAll(store, line, unheard);
    expect(await states()).toEqual(['bad refused']);
  });

  test('pictures go up before the order that names them, and stay until they are up', async () => {
    const picture = { sha256: 'ab'.repeat(32), blob: new Blob(['picture'], { type: 'image/jpeg' }) };
    await store.add([{ ...noted('photo', 'file.attach', {}), files: [picture.sha256] }], [picture]);
    const { sent, line } = answering();
    const cut = { ...line, bringFiles: async (): Promise<Answer> => ({ failed: 'not-reached' }) };
    expect(await sendAll(store, cut, unheard)).toBe('not-reached');
    expect(sent).toEqual([]);
    expect(await store.files(['ab'.repeat(32)])).toHaveLength(1);
  });

  test('pictures go from the device only when the order that names them was taken', async () => {
    const sha256 = 'ab'.repeat(32);
    const blob = new Blob(['picture'], { type: 'image/jpeg' });
    await store.add([{ ...noted('photo', 'file.attach', { sha256 }), files: [sha256] }], [{ sha256, blob }]);
    const asked: string[] = [];
    let answers = 'cut off after the picture';
    const line = lineTo({
      fetch: async (address, { method }) => {
        asked.push(`${method} ${address.replace(sha256, '…')}`);
        if (method === 'PUT') return new Response('{}');
        if (answers === 'cut off after the picture') throw new Error('no network');
        return Response.json({ outcomes: [recorded('photo')] });
      },
      ...{ device: 'phone', now: () => new Date('2026-05-01T10:15:00Z'), files: store },
    });
    expect(await sendAll(store, line, unheard)).toBe('not-reached');
    expect(await store.files([sha256])).toHaveLength(1);
    answers = 'all';
    expect(await sendAll(store, line, unheard)).toBe('done');
    expect(await store.files([sha256])).toEqual([]);
    expect(asked).toEqual(['PUT /api/files/…', 'POST /api/commands', 'POST /api/commands']);
  });

  test('a studio whose disk is full is said to be so, and what was noted stays here with its picture', async () => {
    const sha256 = 'cd'.repeat(32);
    const blob = new Blob(['picture'], { type: 'image/jpeg' });
    await store.add([{ ...noted('photo', 'file.attach', { sha256 }), files: [sha256] }], [{ sha256, blob }]);
    const full = { code: 'no-room', detail: 'There is no room left on the disk.' };
    const line = lineTo({
      fetch: async () => Response.json(full, { status: 507 }),
      ...{ device: 'phone', now: () => new Date('2026-05-01T10:15:00Z'), files: store },
    });
    await sendAll(store, line, { ...unheard, watched: () => true });
    const [kept] = await store.all();
    expect(kept).toMatchObject({ state: 'refused', refused: { code: 'no-room', sentence: full.detail } });
    expect(await store.files([sha256])).toHaveLength(1);
  });

  test('pauses grow from two seconds to five minutes, and differ from phone to phone', () => {
    expect([0, 1, 2, 10, 40].map((tries) => pause(tries, 0.5))).toEqual([
      2_000, 4_000, 8_000, 300_000, 300_000,
    ]);
    expect([pause(0, 0), pause(0, 1)]).toEqual([1_500, 2_500]);
  });
});

test('what is left out stays with its reason, takes its undo along, and lets go of what rested on it', async () => {
  await store.add([
    noted('grade', 'piece.grade', {}),
    noted('undo', 'entry.strike', { command: 'grade' }, ['grade']),
    noted('price', 'piece.price', {}, ['grade']),
  ]);
  await store.leaveOut('grade', 'The other phone had it.');
  expect(await states()).toEqual(['grade left-out', 'undo left-out', 'price waiting']);
  const { sent, line } = answering();
  await sendAll(store, line, unheard);
  expect(sent).toEqual([['price']]);
  expect((await store.all())[0]).toMatchObject({ state: 'left-out', why: 'The other phone had it.' });
});

test('what rested on an order rests on the one that takes its place', async () => {
  await store.add([noted('grade', 'piece.grade', {}), noted('price', 'piece.price', {}, ['grade'])]);
  await store.leaveOut('grade', 'Replaced.', [
    noted('strike', 'entry.strike', {}),
    noted('anew', 'piece.grade', {}, ['strike']),
  ]);
  const { sent, line } = answering();
  await sendAll(store, line, unheard);
  expect(sent).toEqual([['strike', 'anew'], ['price']]);
});

test('orders and their pictures are kept together or not at all', async () => {
  const picture = { sha256: 'cd'.repeat(32), blob: new Blob(['picture']) };
  await store.add([noted('one', 'piece.note', {})]);
  const twice = store.add([noted('two', 'file.attach', {}), noted('one', 'piece.note', {})], [picture]);
  await expect(twice).rejects.toThrow();
  expect(await states()).toEqual(['one waiting']);
  expect(await (await db).count('files')).toBe(0);
});

test('a database made anew is told from the one before, and takes back what an open page knew', async () => {
  await store.add([noted('one', 'piece.note', {}), noted('two', 'piece.note', {})]);
  await store.leaveOut('two', 'twice');
  const knew = await store.all();
  const born = await (await db).get('facts', 'born');
  (await db).close();
  indexedDB.deleteDatabase(name);
  db = openDatabase(name);
  expect(await (await db).get('facts', 'born')).not.toBe(born);
  await store.add([noted('three', 'piece.note', {})]);
  expect(await store.putBack(knew)).toBe(2);
  // Another open page knew the same.
  expect(await store.putBack(knew)).toBe(0);
  expect(await states()).toEqual(['three waiting', 'one waiting', 'two left-out']);
});

test('a newer page changes the layout and keeps all that waits', async () => {
  await store.add([noted('one', 'piece.note', {}), noted('two', 'piece.note', {})]);
  (await db).close();
  const newer = await openDatabase(name, [
    ...STEPS,
    async (changing, upgrade) => {
      changing.deleteObjectStore('answers');
      const outbox = upgrade.objectStore('outbox');
      for (const entry of await outbox.getAll())
        await outbox.put({ ...entry, sentence: `${entry.sentence}!` });
    },
  ]);
  expect((await newer.getAll('outbox')).map(({ id, sentence }) => [id, sentence])).toEqual([
    ['one', 'one!'],
    ['two', 'two!'],
  ]);
  newer.close();
});

test('an older page lets go of the database when a newer one wants to change it', async () => {
  await store.add([noted('one', 'piece.note', {})]);
  const newer = await openDB(name, STEPS.length + 1);
  expect(await newer.getAll('outbox')).toHaveLength(1);
  newer.close();
});

describe('while one looks on', () => {
  function outboxWith(answers: Readonly<Record<string, Outcome>>, away = false) {
    const { sent, line } = answering(answers);
    const stands: WaitingHere[] = [];
    const outbox = new Outbox({
      store,
      line,
      ahead: async () => ({
        note: async (orders) =>
          orders.map(({ id }) =>
            id === 'never' ? { refused: true, code: 'not-fired', sentence: 'It was not fired.' } : 'taken',
          ),
      }),
      lock: (run) => run(),
      reached: () => {},
      isAway: () => away,
      count: () => 7,
      stands: (how) => stands.push(how),
      taken: () => {},
      later: () => () => {},
      chance: () => 0.5,
    });
    return { outbox, sent, stands };
  }

  test('the studio’s refusal is told there, and nothing stays behind', async () => {
    const { outbox } = outboxWith({ grade: refused('grade') });
    const { outcomes } = await outbox.log([noted('grade', 'piece.grade', { piece: 'jug-0001' })]);
    expect(outcomes).toMatchObject([{ outcome: 'refused' }]);
    await outbox.send();
    expect(await states()).toEqual([]);
  });

  test('two sides that cannot both be true are kept, to be decided on', async () => {
    const { outbox } = outboxWith({ grade: refused('grade', 'said-otherwise') });
    await outbox.log([noted('grade', 'piece.grade', { piece: 'jug-0001' })]);
    await outbox.send();
    expect(await states()).toEqual(['grade refused']);
  });

  test('away, it is kept and counted, with what it knew of the studio', async () => {
    const { outbox, stands } = outboxWith({}, true);
    const { outcomes } = await outbox.log([noted('note', 'piece.note', { piece: 'jug-0001' })]);
    expect(outcomes).toEqual([{ outcome: 'waiting', id: 'note' }]);
    expect(stands[0]).toEqual({
      waiting: 1,
      held: 0,
      refused: 0,
      oldest: Date.parse('2026-05-01T09:15:00Z'),
    });
    await outbox.send();
    expect((await store.sent())[0]).toMatchObject({ seen: 7 });
  });

  test('away, what the studio would refuse is refused at once, and none of it is kept', async () => {
    const { outbox } = outboxWith({}, true);
    const { outcomes } = await outbox.log([
      noted('note', 'piece.note', {}),
      noted('never', 'piece.grade', {}),
    ]);
    expect(outcomes.map(({ outcome }) => outcome)).toEqual(['held', 'refused']);
    expect(await states()).toEqual([]);
  });
});

test('a small mark elsewhere tells how many waited when the browser cleared the rest', () => {
  expect(markedWaiting('theme=dark; wareboard-waiting=3.1779000000000.0198-born')).toEqual({
    count: 3,
    oldest: 1_779_000_000_000,
    born: '0198-born',
  });
  expect(markedWaiting('wareboard-waiting=1.1779000000000')).toEqual({ count: 1, oldest: 1_779_000_000_000 });
  expect(markedWaiting('wareboard-waiting=')).toBeUndefined();
  expect(markedWaiting('')).toBeUndefined();
});
