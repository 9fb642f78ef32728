import { beforeEach, describe, expect, test, vi } from 'vitest';
import { queryOf, reportAddress } from '../../web/api/client.ts';
import { newId } from '../../web/api/ids.ts';

/* A phone's browser, as far as the orders touch it. */
const kept = new Map<string, string>();
vi.stubGlobal('localStorage', {
  getItem: (name: string) => kept.get(name) ?? null,
  setItem: (name: string, value: string) => kept.set(name, value),
});
vi.stubGlobal('location', { pathname: '/ware/begin' });

const { done, record, screenChanged, undo } = await import('../../web/api/orders.ts');

type Sent = { id: string; command: string; input: Record<string, unknown>; happenedAt?: string };
let sent: Sent[][];
let answer: (orders: Sent[]) => unknown;

beforeEach(() => {
  sent = [];
  done.value = [];
  answer = (orders) => ({
    outcomes: orders.map(({ id }, n) => ({ outcome: 'recorded', id, first: n + 1, last: n + 1 })),
  });
  vi.stubGlobal('fetch', async (_: string, { body }: { body: string }) => {
    const { commands } = JSON.parse(body) as { commands: Sent[] };
    sent.push(commands);
    return Response.json(answer(commands));
  });
});

describe('the id of an order', () => {
  test('is a UUID of version 7 that carries the time it was made (RFC 9562, 5.7)', () => {
    const at = Date.UTC(2026, 10, 25, 8, 0, 0);
    const id = newId(at);
    expect(id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
    expect(Number.parseInt(id.replaceAll('-', '').slice(0, 12), 16)).toBe(at);
  });

  test('sorts in the order of making, thousands of them within one moment, and when the clock is set back', () => {
    const at = Date.UTC(2026, 10, 25, 9, 0, 0);
    const ids = Array.from({ length: 10_000 }, () => newId(at));
    ids.push(newId(at - 60_000), newId(at + 60_000));
    expect([...ids].sort()).toEqual(ids);
    expect(new Set(ids).size).toBe(ids.length);
  });
});

describe('what is recorded', () => {
  test('goes out in order, each thing with an id of its own, and is remembered with its way back', async () => {
    const outcome = await record(
      [
        { command: 'fault.find', input: { kind: 'runs' }, happenedAt: '2026-05-01' },
        { command: 'piece.grade', input: { second: 1 } },
      ],
      'Graded.',
    );
    expect(outcome).toEqual({ recorded: true });
    expect(sent[0]!.map(({ command, happenedAt }) => [command, happenedAt])).toEqual([
      ['fault.find', '2026-05-01'],
      ['piece.grade', undefined],
    ]);
    expect(new Set(sent[0]!.map(({ id }) => id)).size).toBe(2);
    expect(done.value).toEqual([
      { sentence: 'Graded.', commands: sent[0]!.map(({ id }) => id), where: '/ware/begin' },
    ]);
  });

  test('is undone from the last to the first, and then there is nothing more to undo', async () => {
    await record(
      [
        { command: 'fault.find', input: {} },
        { command: 'piece.grade', input: {} },
      ],
      'Graded.',
    );
    const ids = sent[0]!.map(({ id }) => id);
    await undo(done.value[0]!);
    expect(sent[1]!.map(({ command, input }) => [command, input.command])).toEqual([
      ['entry.strike', ids[1]],
      ['entry.strike', ids[0]],
    ]);
    expect(done.value).toEqual([]);
  });

  test('is nothing where it was so already: no line, no way back', async () => {
    answer = (orders) => ({ outcomes: orders.map(({ id }) => ({ outcome: 'unchanged', id })) });
    expect(await record([{ command: 'piece.move-on', input: {} }], 'Now bone-dry.')).toEqual({
      recorded: false,
    });
    expect(done.value).toEqual([]);
  });

  test('and refused half way keeps the way back for the half that was recorded', async () => {
    answer = ([one, two]) => ({
      outcomes: [
        { outcome: 'recorded', id: one!.id, first: 1, last: 1 },
        {
          outcome: 'refused',
          id: two!.id,
          refusal: { refused: true, code: 'too-many', sentence: 'There are only 2.', field: 'first' },
        },
      ],
    });
    const outcome = await record(
      [
        { command: 'fault.find', input: {} },
        { command: 'piece.grade', input: {} },
      ],
      'Graded.',
    );
    expect(outcome.recorded).toBe(true);
    expect(outcome.problem).toEqual({
      code: 'too-many',
      sentence: 'There are only 2.',
      field: 'first',
      status: 409,
    });
    expect(done.value[0]!.commands).toEqual([sent[0]![0]!.id]);
  });

  test('and refused because others rest on it names them', async () => {
    const others = [
      { seq: 7, name: 'piece.graded', happenedAt: '2026-05-01', why: 'It could not be graded.' },
    ];
    answer = ([one]) => ({
      outcomes: [
        {
          outcome: 'refused',
          id: one!.id,
          refusal: { refused: true, code: 'rests', sentence: 'One rests on it.', others },
        },
      ],
    });
    expect((await record([{ command: 'entry.strike', input: { seqs: [3] } }], 'Struck out.')).others).toEqual(
      others,
    );
  });

  test('fails gently where Wareboard is not running', async () => {
    vi.stubGlobal('fetch', () => Promise.reject(new TypeError('fetch failed')));
    const outcome = await record([{ command: 'piece.begin', input: {} }], 'Begun.');
    expect(outcome).toEqual({ recorded: false, problem: { code: 'not-reached', sentence: '', status: 0 } });
    expect(done.value).toEqual([]);
  });
});

test('what was done stays as long as its screen, and goes with it', async () => {
  await record([{ command: 'piece.begin', input: {} }], 'Begun.', '/ware/0190');
  screenChanged('/ware/0190');
  expect(done.value).toHaveLength(1);
  screenChanged('/kilns');
  expect(done.value).toEqual([]);
});

describe('an address', () => {
  test('leaves out what was not asked, and is the same however it was asked', () => {
    expect(queryOf({ to: '2026', from: undefined, glaze: 'marram-green', q: '' })).toBe(
      'glaze=marram-green&to=2026',
    );
    expect(reportAddress('studio/ware', { q: 'a b&c' })).toBe('/api/reports/studio/ware?q=a+b%26c');
    expect(reportAddress('studio/ware')).toBe('/api/reports/studio/ware');
  });
});
