import { expect, test } from 'vitest';
import { plainAnswer } from '../../server/cli/plain-table.ts';
import { bar } from '../../server/cli/progress.ts';
import type { Answer } from '../../server/contract/figures.ts';
import { put } from '../http/small-studio.ts';
import { atTheDesk } from './at-the-desk.ts';

test('a report is printed as it was asked for: plain, JSON or CSV', async () => {
  const { type, studio } = atTheDesk();
  await studio.host.record({ ...put(3, '=cmd'), who: 'maker', device: 'here' });
  const plain = await type('report', 'shelf', 'pots', '--glaze', 'Gannet Grey', '--as-at=2026-05-01');
  expect(plain).toMatchObject({ code: 0, err: expect.stringContaining('is made') });
  expect(plain.out).toBe(
    'What stands on the shelf.\n\ncount  glaze\n    3  =cmd\n\n{"glaze":"Gannet Grey","as-at":"2026-05-01"}\n',
  );
  expect(JSON.parse((await type('report', 'shelf', 'pots', '--json')).out)).toMatchObject({
    report: 'pots',
    rows: [{ count: 3 }],
  });
  expect((await type('report', 'shelf', 'pots', '--csv')).out).toBe("count,glaze\r\n3,'=cmd\r\n");
});

test('a report that fails is told on the error channel, with exit code 1', async () => {
  const { code, out, err } = await atTheDesk().type('report', 'shelf', 'broken');
  expect(code).toBe(1);
  expect(out).toBe('');
  expect(err).toContain('shelf broken');
});

const answer = (changed: Partial<Answer>): Answer => ({
  report: 'by-glaze',
  from: null,
  to: null,
  sentence: 'Seconds by glaze.',
  rows: [],
  notes: [],
  figures: [],
  ...changed,
});

test('shares, money and names stand in their columns, figures to the right', () => {
  const text = plainAnswer(
    answer({
      rows: [
        { key: 'Marram Green', pieces: 120, rate: 0.05, lost: 1250, currency: 'GBP' },
        { key: 'Nightjar Black', pieces: 7, rate: 0.1429, lost: null, currency: 'GBP' },
        { key: 'Øyster\u001b[31m', pieces: 1, rate: null, lost: 500, currency: 'JPY' },
      ],
      figures: [
        {
          figure: 'table',
          title: 'By glaze',
          columns: [
            { field: 'key', label: 'Glaze', kind: 'text' },
            { field: 'pieces', label: 'Pieces', kind: 'count' },
            { field: 'rate', label: 'Seconds', kind: 'rate' },
            { field: 'lost', label: 'Lost', kind: 'money' },
          ],
        },
      ],
    }),
  );
  expect(text.split('\n').slice(2, -1)).toEqual([
    'Glaze           Pieces  Seconds    Lost',
    'Marram Green       120    5.0 %  £12.50',
    'Nightjar Black       7   14.3 %',
    'Øyster [31m          1           JP¥500',
  ]);
});

test('a table that is only for rows of one kind shows no others', () => {
  const column = { field: 'key', label: 'Key', kind: 'text' } as const;
  const text = plainAnswer(
    answer({
      rows: [
        { kind: 'clay', key: 'Grit House' },
        { kind: 'firing', key: '17' },
      ],
      figures: [
        { figure: 'table', title: 'Clays', only: 'clay', columns: [column] },
        { figure: 'table', title: 'Firings', only: 'firing', columns: [column] },
      ],
    }),
  );
  expect(text).toBe('Seconds by glaze.\n\nClays\nKey\nGrit House\n\nFirings\nKey\n17\n');
});

test('a bar is drawn where somebody looks on, and taken away again; a pipe sees nothing', async () => {
  expect(bar(0, 0)).toBe(`[${' '.repeat(30)}]   0 %`);
  expect(bar(15, 30)).toBe(`[${'='.repeat(15)}${' '.repeat(15)}]  50 %`);
  const watched = atTheDesk({ watched: true });
  await watched.studio.host.record({ ...put(1), who: 'maker', device: 'here' });
  const { err } = await watched.type('verify');
  expect(err).toContain('\rVerifying [==============================] 100 %');
  expect(err.endsWith('\r')).toBe(true);
  const piped = atTheDesk();
  expect((await piped.type('verify')).err).not.toContain('\r');
});
