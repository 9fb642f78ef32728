import { expect, test } from 'vitest';
import { put, smallApp } from './small-studio.ts';

const finished = async (
  { ask, post, jobs }: ReturnType<typeof smallApp>,
  path: string,
  body: object = {},
) => {
  const begun = await post(path, body);
  expect(begun.status).toBe(202);
  await jobs.idle();
  return (await ask(`/api/jobs/${(await begun.json()).job}`)).json();
};

test('the whole log is verified on request', async () => {
  const made = smallApp();
  await made.post('/api/commands', put(1));
  expect(await finished(made, '/api/admin/verify')).toMatchObject({
    state: 'done',
    done: 1,
    of: 1,
    result: { entries: 1 },
  });
});

test('one read model or all are built again', async () => {
  const made = smallApp();
  await finished(made, '/api/admin/rebuild', { plugin: 'shelf' });
  await finished(made, '/api/admin/rebuild');
  expect(made.studio.rebuilt).toEqual(['shelf', undefined]);
  const unknown = await made.post('/api/admin/rebuild', { plugin: 'attic' });
  expect(unknown.status).toBe(404);
});

test('a backup names no folder of its own choosing', async () => {
  const made = smallApp({ backup: async () => ({ folder: '/data/backups/1', entries: 3 }) });
  expect(await finished(made, '/api/admin/backup')).toMatchObject({
    state: 'done',
    result: { folder: '/data/backups/1', entries: 3 },
  });
  expect((await made.post('/api/admin/backup', { folder: '/etc' })).status).toBe(400);
});

test('a person is forgotten, and one nobody knows is refused', async () => {
  const { post, studio } = smallApp();
  const { id } = put(1);
  expect(await (await post('/api/admin/forget', { id, person: 'p-17' })).json()).toEqual({
    outcome: 'unchanged',
    id,
  });
  expect(studio.forgotten).toEqual(['p-17']);
  const unknown = await post('/api/admin/forget', { id, person: 'nobody' });
  expect(unknown.status).toBe(422);
  expect(await unknown.json()).toMatchObject({ code: 'no-such-person', field: 'person' });
});

test('work that fails for a reason of ours is told to the operator', async () => {
  const made = smallApp({
    backup: async () => {
      throw new Error('no room on /dev/sda1');
    },
  });
  const job = await finished(made, '/api/admin/backup');
  expect(job).toMatchObject({ state: 'failed', problem: { code: 'went-wrong' } });
  expect(JSON.stringify(job)).not.toContain('/dev/sda1');
  expect(made.told).toHaveLength(1);
});
