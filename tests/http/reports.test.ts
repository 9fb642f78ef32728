import { expect, test } from 'vitest';
import { put, smallApp } from './small-studio.ts';

async function shelfWith(...glazes: string[]) {
  const made = smallApp();
  for (const glaze of glazes) await made.post('/api/commands', put(2, glaze));
  return made;
}

test('a report is answered with its sentence and its rows', async () => {
  const { ask } = await shelfWith('Gannet Grey');
  const answer = await ask('/api/reports/shelf/pots');
  expect(answer.status).toBe(200);
  expect(await answer.json()).toMatchObject({
    report: 'pots',
    sentence: 'What stands on the shelf.',
    rows: [{ count: 2, glaze: 'Gannet Grey' }],
  });
});

test('the query is handed to the report, a repeated name as a list, and the format is kept back', async () => {
  const { ask } = await shelfWith();
  const { notes, from } = await (
    await ask('/api/reports/shelf/pots?glaze=a&glaze=b&as-at=2026-05-01&format=json')
  ).json();
  expect(JSON.parse(notes[0])).toEqual({ glaze: 'a,b', 'as-at': '2026-05-01' });
  expect(from).toBe('2026-05-01');
});

test.each([
  ['by the address', '?format=csv', {}],
  ['by what is accepted', '', { accept: 'text/csv' }],
  ['by what is accepted first', '', { accept: 'text/csv, application/json' }],
])('a report asked for as CSV %s comes as a file', async (_how, query, headers) => {
  const { ask } = await shelfWith('Marram Green', 'Oyster "Satin", thin');
  const answer = await ask(`/api/reports/shelf/pots${query}`, { headers: headers as Record<string, string> });
  expect(answer.headers.get('content-type')).toMatch(/^text\/csv/);
  expect(answer.headers.get('content-disposition')).toBe('attachment; filename="shelf-pots.csv"');
  expect(await answer.text()).toBe('count,glaze\r\n2,Marram Green\r\n2,"Oyster ""Satin"", thin"\r\n');
});

test('a name that a spreadsheet would run as a formula is made harmless', async () => {
  const { ask } = await shelfWith(
    '=HYPERLINK("http://evil.example")',
    '@SUM(1)',
    '+1+1',
    '-2+3',
    '\tx',
    '-3.5',
  );
  const text = await (await ask('/api/reports/shelf/pots?format=csv')).text();
  expect(text.split('\r\n').slice(1, -1)).toEqual([
    `2,"'=HYPERLINK(""http://evil.example"")"`,
    "2,'@SUM(1)",
    "2,'+1+1",
    "2,'-2+3",
    "2,'\tx",
    '2,-3.5',
  ]);
});

test('a report that no plugin offers is named, with those it does offer', async () => {
  const { ask } = await shelfWith();
  const answer = await ask('/api/reports/shelf/pans');
  expect(answer.status).toBe(404);
  expect(await answer.json()).toMatchObject({
    code: 'unknown-report',
    detail: 'shelf has no report pans; it offers: pots, broken.',
  });
  expect(await (await ask('/api/reports/attic/pots')).json()).toMatchObject({ code: 'unknown-plugin' });
  expect((await ask('/api/reports/shelf/constructor')).status).toBe(404);
});

test('a parameter that the report does not know, or cannot read, is named with what it does know', async () => {
  const { ask } = await shelfWith();
  const stranger = await ask('/api/reports/shelf/pots?glase=a');
  expect(stranger.status).toBe(400);
  expect(await stranger.json()).toMatchObject({
    code: 'unknown-parameter',
    field: 'glase',
    detail: expect.stringContaining('glaze'),
  });
  expect(await (await ask('/api/reports/shelf/pots?as-at=31/02')).json()).toMatchObject({
    code: 'bad-parameter',
    field: 'as-at',
  });
});

test('a report that fails, fails alone and names its plugin', async () => {
  const { ask, told } = await shelfWith();
  const answer = await ask('/api/reports/shelf/broken');
  expect(answer.status).toBe(500);
  expect(await answer.json()).toMatchObject({
    code: 'report-failed',
    detail: expect.stringContaining('shelf broken'),
  });
  expect(told).toHaveLength(1);
  expect((await ask('/api/reports/shelf/pots')).status).toBe(200);
});

test('a large answer is sent compressed to who can read that', async () => {
  const { ask } = await shelfWith(...Array.from({ length: 60 }, () => 'Samphire Matt'));
  const answer = await ask('/api/reports/shelf/pots', { headers: { 'accept-encoding': 'gzip' } });
  expect(answer.headers.get('content-encoding')).toBe('gzip');
});

test('the plugins tell what can be asked of them and recorded with them', async () => {
  const { ask } = await shelfWith();
  const { plugins, commands } = await (await ask('/api/plugins')).json();
  expect(plugins).toHaveLength(1);
  expect(plugins[0]).toMatchObject({
    id: 'shelf',
    about: 'Counts what stands on the shelf.',
    reports: [
      { report: 'pots', title: 'Pots on the shelf', input: { properties: { glaze: { type: 'string' } } } },
      { report: 'broken' },
    ],
    commands: [{ command: 'pot.put', title: 'Put pots on the shelf' }],
  });
  expect(commands.map(({ command }: { command: string }) => command)).toEqual(['entry.strike', 'pot.put']);
});
