import { mkdtempSync } from 'node:fs';
import { Statements } from '../../server/log/embedded/statements.ts';
import { Writer } from '../../server/log/embedded/writer.ts';
import { judge } from '../../server/log/judge.ts';
import { openLog } from '../../server/log/open.ts';
import { prepare } from '../../server/log/prepare.ts';

const app = (n: number, k = 1) => ({
  command: `01900000-0000-7000-8000-${String(n).padStart(12, '0')}`,
  fingerprint: 'f'.repeat(64),
  who: 'w-1',
  device: 'd-1',
  expect: {},
  entries: Array.from({ length: k }, (_, i) => ({
    name: 'glaze.applied',
    version: 1,
    happenedAt: '2026-05-01T10:15:00+01:00',
    streams: [`piece:01900000-0000-7000-8000-${String((n + i) % 5000).padStart(12, '0')}`],
    data: {
      zone: 'outside',
      layers: [
        { glaze: 'Marram Green', coats: 2, method: 'dip' },
        { glaze: 'Cuttle White', coats: 1, method: 'brush' },
      ],
      wipedBack: false,
    },
  })),
});
const dir = mkdtempSync('/work/wt-log/dist/bench/p-');
const w = new Writer({ file: dir + '/log.db', headFile: dir + '/h' });
const db = w.connection;
const st = new Statements(db);
const tot: Record<string, number> = {};
const N = 30;
for (let k = 0; k < N; k++) {
  const list = Array.from({ length: 1000 }, (_, i) => app(k * 1000 + i));
  const tm = (n: string, f: () => any) => {
    const t = performance.now();
    const r = f();
    tot[n] = (tot[n] ?? 0) + performance.now() - t;
    return r;
  };
  const p = tm('prepare', () => list.map(prepare));
  tm('begin', () => db.exec('BEGIN IMMEDIATE'));
  const s = tm('load', () => st.load(p));
  const { rows } = tm('judge', () => judge(p, s, '2026-05-01T10:15:00.000Z'));
  tm('insert', () => {
    st.inserter.insert(rows);
  });
  tm('commit', () => db.exec('COMMIT'));
}
for (const k in tot) console.log(k, (tot[k]! / N).toFixed(2), 'us/entry');
