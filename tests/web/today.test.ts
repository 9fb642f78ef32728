import { expect, test } from 'vitest';
import { newsOf, unheard } from '../../web/notices/news.ts';
import { headingsOf } from '../../web/today/lines.ts';

const NOW = Date.parse('2026-11-25T09:00:00Z');
const line = (does: string, order: number, more: object = {}) => ({
  does,
  order,
  title: `${does} of a plugin`,
  what: 'Glaze, late November',
  to: '/kilns/g1',
  ...more,
});

test('lines of several plugins stand under their headings, the most pressing first; one heading is said once', () => {
  const told = [
    { plugin: 'studio', rows: [line('decide', 42), line('draw', 10)] },
    { plugin: 'shop-orders', rows: [line('pack', 30, { title: 'Parcels due' }), line('draw', 10)] },
  ];
  expect(headingsOf(told, NOW).map(({ title, lines }) => [title, lines.length])).toEqual([
    ['Kilns to draw', 2],
    ['Parcels due', 1],
    ['Repairs to decide', 1],
  ]);
});

test('a kiln is cooling until the time at which it is usually drawn, and then it is one to draw', () => {
  const at = (usually: string | null) =>
    headingsOf([{ plugin: 'studio', rows: [line('draw', 10, { usually })] }], NOW)[0]!.title;
  expect(at('2026-11-25T14:00:00Z')).toBe('Kilns cooling');
  expect(at('2026-11-25T08:59:00Z')).toBe('Kilns to draw');
  expect(at(null)).toBe('Kilns to draw');
});

test('what is too much to list is counted', () => {
  const told = [{ plugin: 'studio', rows: [line('dry', 80)], more: { unlisted: { dry: 31 } } }];
  expect(headingsOf(told, NOW)[0]).toMatchObject({ does: 'dry', unlisted: 31 });
});

test('a notice is given once of what has come up, and none of what only takes its time', () => {
  const rows = [line('draw', 10), line('dry', 80), line('ask', 40, { to: '/ware/a/tell', mark: 'K7RTX' })];
  const news = newsOf(headingsOf([{ plugin: 'studio', rows }], NOW));
  expect(news.map(({ title, body }) => `${title}: ${body}`)).toEqual([
    'Kilns to draw: Glaze, late November',
    'Clients to ask: K7RTX · Glaze, late November',
  ]);
  expect(unheard(news, ['draw /kilns/g1']).map(({ to }) => to)).toEqual(['/ware/a/tell']);
});
