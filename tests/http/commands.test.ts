import { expect, test } from 'vitest';
import { put, smallApp } from './small-studio.ts';

test('a command is recorded and answered with its place in the log', async () => {
  const { post, studio } = smallApp();
  const order = put(12);
  const answer = await post('/api/commands', order);
  expect(answer.status).toBe(200);
  expect(await answer.json()).toEqual({ outcome: 'recorded', id: order.id, first: 1, last: 1 });
  expect(studio.entries).toHaveLength(1);
});

test('it is recorded for the maker, on the device that the page names', async () => {
  const { post, studio } = smallApp();
  await post('/api/commands', put(1), { 'x-wareboard-device': 'bench-phone' });
  await post('/api/commands', { ...put(1), device: 'kiln-tablet' });
  await post('/api/commands', put(1));
  expect(studio.entries.map(({ who, device }) => [who, device])).toEqual([
    ['maker', 'bench-phone'],
    ['maker', 'kiln-tablet'],
    ['maker', 'unnamed'],
  ]);
});

test('a device whose name could hide something is refused', async () => {
  const { post, studio } = smallApp();
  const answer = await post('/api/commands', put(1), { 'x-wareboard-device': 'a b' });
  expect(answer.status).toBe(400);
  expect(await answer.json()).toMatchObject({ code: 'bad-input', field: 'x-wareboard-device' });
  expect(studio.entries).toEqual([]);
});

test('a refusal says why, in which field, and what stands in the way', async () => {
  const { post, studio } = smallApp();
  const order = put(101);
  const answer = await post('/api/commands', order);
  expect(answer.status).toBe(422);
  expect(answer.headers.get('content-type')).toBe('application/problem+json');
  expect(await answer.json()).toEqual({
    type: '/api/problems/refused',
    title: 'Refused',
    status: 422,
    detail: 'The shelf holds 100 pots at most.',
    code: 'shelf-full',
    field: 'count',
    order: order.id,
    others: [],
  });
  expect(studio.entries).toEqual([]);
});

test('many commands are answered in their places, the refused among the recorded', async () => {
  const { post } = smallApp();
  const orders = [put(1), put(101), { ...put(1), command: 'pot.fly' }, put(2)];
  const answer = await post('/api/commands', orders);
  expect(answer.status).toBe(200);
  const outcomes = await answer.json();
  expect(outcomes.map(({ id }: { id: string }) => id)).toEqual(orders.map(({ id }) => id));
  expect(outcomes.map(({ outcome }: { outcome: string }) => outcome)).toEqual([
    'recorded',
    'refused',
    'refused',
    'recorded',
  ]);
  expect(outcomes[2].refusal).toMatchObject({
    code: 'no-such-command',
    sentence: 'There is no command “pot.fly” in this studio.',
  });
});

test('many may come under the name commands, and are answered under the name outcomes', async () => {
  const { post } = smallApp();
  const { outcomes } = await (await post('/api/commands', { commands: [put(1), put(2)] })).json();
  expect(outcomes).toHaveLength(2);
});

test('a command that no plugin offers is named', async () => {
  const { post } = smallApp();
  const answer = await post('/api/commands', { ...put(1), command: 'pot.fly' });
  expect(answer.status).toBe(422);
  expect(await answer.json()).toMatchObject({
    code: 'no-such-command',
    detail: 'There is no command “pot.fly” in this studio.',
    field: 'command',
  });
});

test('a body that is not JSON, or not an order, is said to be so', async () => {
  const { ask, post } = smallApp();
  const headers = { 'content-type': 'application/json' };
  const broken = await ask('/api/commands', { method: 'POST', body: '{"id": ', headers });
  expect(broken.status).toBe(400);
  expect(await broken.json()).toMatchObject({ code: 'bad-json', status: 400 });
  const shapeless = await post('/api/commands', { command: 'pot.put' });
  expect(shapeless.status).toBe(400);
  expect(await shapeless.json()).toMatchObject({ code: 'bad-input', field: 'id' });
  const inList = await post('/api/commands', [put(1), { ...put(1), happenedAt: 'yesterday' }]);
  expect(await inList.json()).toMatchObject({ code: 'bad-input', field: '1.happenedAt' });
});

test('more than a thousand orders at once are refused before any is recorded', async () => {
  const { post, studio } = smallApp();
  const answer = await post(
    '/api/commands',
    Array.from({ length: 1_001 }, () => put(1)),
  );
  expect(answer.status).toBe(400);
  expect(studio.entries).toEqual([]);
});

test('a log that cannot take more says so in its own words', async () => {
  const { post, studio, told } = smallApp();
  studio.trouble = Object.assign(new Error('Entry 7 does not fit.'), { name: 'LogDamaged' });
  const answer = await post('/api/commands', put(1));
  expect(answer.status).toBe(503);
  expect(await answer.json()).toMatchObject({ code: 'log-damaged', detail: 'Entry 7 does not fit.' });
  expect(told).toEqual([]);
});

test('an error nobody thought of is told to the operator and kept from the asker', async () => {
  const { post, studio, told } = smallApp();
  studio.trouble = new Error('/home/ansa/secret is not readable');
  const answer = await post('/api/commands', put(1));
  expect(answer.status).toBe(500);
  expect(JSON.stringify(await answer.json())).not.toContain('secret');
  expect(told).toEqual([studio.trouble]);
});
