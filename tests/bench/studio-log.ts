/**
 * A log of the studio's shape, of any length: lots are begun, bisque fired, glazed on two zones, glaze
 * fired, found faulty, graded and sold, in kilns of thirty, a few entries late and a few struck out.
 * Appended in bulk as entries, without being decided one by one: it is the reading that is measured.
 */
import { createHash } from 'node:crypto';
import type { NewEntry } from '../../server/contract/entry.ts';
import type { Append, EventLog } from '../../server/log/log.ts';

const GLAZES = [
  'marram-green',
  'cuttle-white',
  'gannet-grey',
  'driftlight-blue',
  'bracken-amber',
  'samphire-matt',
];
const CLAYS = ['fell-white', 'otterfold-buff', 'grit-house'];
const FORMS = ['beaker', 'bowl', 'plate', 'jug', 'wall planter'];
const FAULTS = ['pinholes', 'runs', 'crawling', 'crazing', 'specks'];
const KILNS = ['big-round', 'little-square'];

/** Lots in a kiln, and kilns a day. */
const LOAD = 30;
const LOADS_A_DAY = 6;
/** Loads that lie between a lot's beginning and each of its steps. */
const STEPS = { begun: 0, dry: 4, bisque: 8, glazed: 12, glaze: 14, graded: 20, left: 60 } as const;
const LAST = STEPS.left;

/** Deterministic, from 0 to 1 (mulberry32, from memory). */
function chance(seed: number): () => number {
  let a = seed;
  return () => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}

const uuid = (kind: number, n: number): string =>
  `0190${String(kind).padStart(4, '0')}-0000-7000-8000-${n.toString(16).padStart(12, '0')}`;
const dayOf = (load: number): string =>
  new Date(Date.UTC(2024, 0, 1) + Math.floor(load / LOADS_A_DAY) * 86_400_000).toISOString().slice(0, 10);

type Made = Omit<NewEntry, 'version'>;

class Studio {
  private readonly random = chance(7);

  private pick<T>(list: readonly T[]): T {
    return list[Math.floor(this.random() * list.length)]!;
  }

  /** What is recorded while load `now` is made: a step of each earlier load. */
  *during(now: number, loads: number): Generator<Made[]> {
    for (const [step, after] of Object.entries(STEPS)) {
      const load = now - after;
      if (load < 0 || load >= loads) continue;
      const lots = Array.from({ length: LOAD }, (_, i) => load * LOAD + i);
      if (step === 'bisque' || step === 'glaze') yield* this.fire(step, load, lots, dayOf(now));
      else for (const lot of lots) yield* this.work(step as keyof typeof STEPS, lot, dayOf(now));
    }
  }

  private *work(step: keyof typeof STEPS, n: number, day: string): Generator<Made[]> {
    const piece = uuid(1, n);
    const count = 1 + (n % 12);
    const happenedAt = this.random() < 0.5 ? day : `${day}T1${Math.floor(this.random() * 10)}:30:00+00:00`;
    const of = (name: string, data: object): Made => ({
      name,
      happenedAt,
      streams: [`piece:${piece}`],
      data: { piece, ...data },
    });
    if (step === 'begun') {
      const price = { amount: 1800 + (n % 9) * 200, currency: 'GBP' };
      yield [
        of('piece.begun', {
          count,
          form: this.pick(FORMS),
          clay: this.pick(CLAYS),
          owner: { kind: 'own' },
          price,
        }),
      ];
    } else if (step === 'dry') yield [of('piece.moved-on', { stage: 'bone-dry', count })];
    else if (step === 'glazed')
      for (const zone of ['outside', 'inside'])
        yield [of('glaze.applied', { zone, layers: [{ glaze: this.pick(GLAZES), coats: 2 }] })];
    else if (step === 'graded') {
      const bad = this.random();
      if (bad < 0.5) yield [of('fault.found', { kind: this.pick(FAULTS), zone: 'inside', count: 1 })];
      const [second, waster] = bad < 0.2 ? [count, 0] : bad < 0.25 ? [0, count] : [0, 0];
      yield [of('piece.graded', { first: count - second - waster, second, waster })];
    } else yield [of('piece.left', { count, how: 'sold', price: { amount: 1600, currency: 'GBP' } })];
  }

  private *fire(
    role: 'bisque' | 'glaze',
    load: number,
    lots: readonly number[],
    happenedAt: string,
  ): Generator<Made[]> {
    const firing = uuid(role === 'bisque' ? 2 : 3, load);
    const kiln = KILNS[load % 2]!;
    const places = lots.map((n, i) => ({ piece: uuid(1, n), count: 1 + (n % 12), shelf: 1 + (i % 5) }));
    const streams = [`firing:${firing}`, ...places.map((it) => `piece:${it.piece}`)];
    const schedule = role === 'bisque' ? 'overnight-bisque-06' : 'glaze-6-plain';
    const of = (name: string, data: object): Made[] => [
      { name, happenedAt, streams, data: { firing, role, ...data } },
    ];
    yield of('firing.packed', { label: `${role} ${load}`, kiln, schedule, places });
    yield of('firing.lit', {});
    yield of('firing.ended', { top: role === 'bisque' ? 1000 : 1222 });
    yield of('firing.drawn', {});
  }
}

/** Appends until the log holds `events` entries, in commands of one entry each. */
export async function makeStudioLog(
  log: EventLog,
  events: number,
  progress?: (done: number) => void,
): Promise<void> {
  const studio = new Studio();
  const random = chance(11);
  const loads = Math.ceil(events / 200);
  const pending: Append[] = [];
  let made = 0;
  const push = (entries: readonly Made[]) => {
    const command = uuid(9, ++made);
    const fingerprint = createHash('sha256').update(command).digest('hex');
    pending.push({
      command,
      fingerprint,
      who: 'ansa',
      device: 'bench',
      expect: {},
      entries: entries.map((it) => ({ ...it, version: 1 })),
    });
  };
  const late: Made[][] = [];
  for (let now = 0; made < events && now < loads + LAST; now++) {
    for (const entries of studio.during(now, loads)) {
      if (made >= events) break;
      const [first] = entries;
      // One in a hundred is noted some loads late; one in five hundred is struck out again.
      if (random() < 0.01 && first!.streams.length === 1) late.push(entries);
      else push(entries);
      if (random() < 0.002)
        push([
          {
            name: 'entry.struck',
            happenedAt: first!.happenedAt,
            streams: first!.streams,
            data: { seq: made },
          },
        ]);
    }
    if (now % 5 === 0) for (const entries of late.splice(0)) push(entries);
    if (pending.length > 10_000) {
      await log.appendAll(pending.splice(0));
      progress?.(made);
    }
  }
  const results = await log.appendAll(pending.splice(0));
  const failed = results.find((it) => it instanceof Error);
  if (failed) throw failed;
  progress?.(made);
}
