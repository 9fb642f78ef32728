import { hash } from 'node:crypto';
import { fdatasyncSync, mkdirSync, mkdtempSync, openSync, rmSync, writeSync } from 'node:fs';
import Database from 'libsql';
import { openLog } from '../../server/log/open.ts';

const base = '/work/wt-log/dist/bench/';
const ms = () => performance.now();
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
function bare() {
  const dir = mkdtempSync(base + 'bare-');
  const db = new Database(dir + '/b.db', { timeout: 5000 });
  db.exec('PRAGMA journal_mode=WAL');
  db.exec('PRAGMA synchronous=FULL');
  db.exec(
    `create table entries(seq integer primary key, command text not null, part integer not null, body text not null, hash text not null, unique(command,part)) strict`,
  );
  db.exec(
    `create table stream_entries(stream text not null, position integer not null, seq integer not null, primary key(stream,position)) strict, without rowid`,
  );
  const a = db.prepare('insert into entries values(?,?,?,?,?)'),
    b = db.prepare('insert into stream_entries values (?,?,?)');
  const fd = openSync(dir + '/head', 'w');
  let seq = 0,
    prev = '0'.repeat(64);
  const pos = new Map<string, number>();
  return {
    db,
    write(list: any[]) {
      db.exec('BEGIN IMMEDIATE');
      for (const x of list) {
        let part = 0;
        for (const e of x.entries) {
          seq++;
          const body = JSON.stringify({
            command: x.command,
            data: e.data,
            device: x.device,
            fingerprint: x.fingerprint,
            happenedAt: e.happenedAt,
            name: e.name,
            part,
            previous: prev,
            recordedAt: new Date().toISOString(),
            seq,
            streams: e.streams,
            version: 1,
            who: x.who,
          });
          prev = hash('sha256', body, 'hex');
          a.run(seq, x.command, part++, body, prev);
          for (const s of e.streams) {
            const p = (pos.get(s) ?? 0) + 1;
            pos.set(s, p);
            b.run(s, p, seq);
          }
        }
      }
      db.exec('COMMIT');
      const buf = Buffer.from(`${seq} ${prev} ${prev}\n`);
      writeSync(fd, buf, 0, buf.length, (seq & 1) * 4096);
      fdatasyncSync(fd);
    },
  };
}
for (let rep = 0; rep < 3; rep++) {
  const b = bare();
  let t = ms();
  for (let i = 0; i < 1000; i++) b.write([app(i)]);
  const bs = (1000 / (ms() - t)) * 1000;
  t = ms();
  for (let k = 0; k < 30; k++) b.write(Array.from({ length: 1000 }, (_, i) => app(10000 + k * 1000 + i)));
  const bb = (30000 / (ms() - t)) * 1000;
  console.log('bare', bs | 0, bb | 0);
  for (const thread of [false, true]) {
    const dir = mkdtempSync(base + 'log-');
    const log = await openLog({ dir, clock: () => new Date(), thread });
    t = ms();
    for (let i = 0; i < 1000; i++) await log.append(app(i));
    const s = (1000 / (ms() - t)) * 1000;
    t = ms();
    for (let k = 0; k < 30; k++)
      await log.appendAll(Array.from({ length: 1000 }, (_, i) => app(10000 + k * 1000 + i)));
    const bulk = (30000 / (ms() - t)) * 1000;
    t = ms();
    for (let k = 0; k < 30; k++) await log.append(app(50000 + k * 1000, 1000));
    const bulk1 = (30000 / (ms() - t)) * 1000;
    t = ms();
    let n = 200000;
    await Promise.all(
      Array.from({ length: 64 }, async () => {
        for (let i = 0; i < 200; i++) await log.append(app(n++));
      }),
    );
    const g = ((64 * 200) / (ms() - t)) * 1000;
    t = ms();
    let after = 0,
      c = 0;
    for (;;) {
      const p = await log.read(after, 1000);
      if (!p.length) break;
      after = p.at(-1)!.seq;
      c += p.length;
    }
    const r = (c / (ms() - t)) * 1000;
    t = ms();
    c = 0;
    const sc = b.db.prepare('select body from entries order by seq');
    for (const row of sc.iterate() as any) {
      c += JSON.parse(row.body).seq > 0 ? 1 : 0;
    }
    const br = (c / (ms() - t)) * 1000;
    console.log(
      thread ? 'thread' : 'inproc',
      'single',
      s | 0,
      (s / bs).toFixed(2),
      'bulk',
      bulk | 0,
      (bulk / bb).toFixed(2),
      'bulk1cmd',
      bulk1 | 0,
      (bulk1 / bb).toFixed(2),
      '64',
      g | 0,
      (g / s).toFixed(1),
      'read',
      r | 0,
      (r / br).toFixed(2),
      br | 0,
    );
    await log.close();
  }
}
