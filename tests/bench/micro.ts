import canonicalize from 'canonicalize';
import { canonical } from '../../server/log/canonical.ts';
import { blank, seal } from '../../server/log/chain.ts';
import { prepare } from '../../server/log/prepare.ts';

const data = {
  zone: 'outside',
  layers: [
    { glaze: 'Marram Green', coats: 2, method: 'dip' },
    { glaze: 'Cuttle White', coats: 1, method: 'brush' },
  ],
  wipedBack: false,
};
const entry = {
  command: `01900000-0000-7000-8000-${String(5).padStart(12, '0')}`,
  part: 0,
  fingerprint: 'f'.repeat(64),
  who: 'w-1',
  device: 'd-1',
  name: 'glaze.applied',
  version: 1,
  happenedAt: '2026-05-01T10:15:00+01:00',
  streams: [`piece:01900000-0000-7000-8000-0000`],
  data,
};
const append = {
  command: entry.command,
  fingerprint: entry.fingerprint,
  who: 'w-1',
  device: 'd-1',
  expect: {},
  entries: [{ name: entry.name, version: 1, happenedAt: entry.happenedAt, streams: entry.streams, data }],
};
function b(n: string, f: () => any) {
  for (let i = 0; i < 20000; i++) f();
  const t = performance.now();
  for (let i = 0; i < 50000; i++) f();
  console.log(n, ((performance.now() - t) / 50).toFixed(2), 'us');
}
for (let r = 0; r < 2; r++) {
  b('canonical data', () => canonical(data, 'data'));
  b('stringify data', () => JSON.stringify(data));
  b('package data', () => canonicalize(data));
  b('canonical entry', () => canonical(entry, 'data'));
  b('package entry', () => canonicalize(entry));
  b('stringify entry', () => JSON.stringify(entry));
  b('blank', () => blank(entry as any, 'e'));
  b('prepare', () => prepare(append));
  const bl = blank(entry as any, 'e');
  b('seal', () => seal(bl, 5, '2026-05-01T10:15:00.000Z', '0'.repeat(64)));
}
