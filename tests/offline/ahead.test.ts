/** What a device keeps and decides ahead is what the studio would say itself. */
import 'fake-indexeddb/auto';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { Order } from '../../server/host/host.ts';
import { Ahead, type Noted } from '../../web/ahead/ahead.ts';
import { carryOn, type Telling, tellAnew } from '../../web/ahead/tell.ts';
import { openDatabase } from '../../web/device/database.ts';
import { fetchDay } from '../../web/device/fetch-day.ts';
import { KeptDay } from '../../web/device/kept.ts';
import { done } from '../support/given.ts';
import { askApp } from '../support/offline.ts';
import { NOON, type StudioHost, studioHost } from '../support/studio-host.ts';
import { glazeFiredTiles, JUG, TILES, tilesAndStudentsJug } from '../support/yard.ts';

let studio: StudioHost;
let kept: KeptDay;
let asked: string[];
let databases = 0;
beforeEach(async () => {
  studio = await studioHost();
  await studio.tell(...tilesAndStudentsJug);
  databases += 1;
  const db = openDatabase(`ahead-${databases}`);
  kept = new KeptDay(() => db);
  asked = [];
});
afterEach(() => studio.close());

const ask = async <T>(address: string): Promise<T> => {
  asked.push(address);
  const answer = await askApp(studio)(address);
  expect(answer.status, address).toBe(200);
  return (await answer.json()) as T;
};

async function telling(): Promise<Telling> {
  await fetchDay(kept, ask, () => NOON.getTime());
  const { count, streams, zone, names } = (await kept.day())!;
  const entries = await kept.entries();
  const ahead = new Ahead({ entries, count, streams, zone, now: () => NOON.getTime(), device: 'phone' });
  return { ahead, streams, names };
}

let orders = 0;
function noted(command: string, input: object): Noted {
  orders += 1;
  const id = `01990000-0000-7000-8000-${String(orders).padStart(12, '0')}`;
  return { id, command, input, clock: new Date(NOON.getTime() - 60_000 + orders).toISOString() };
}
const asStudio = ({ id, command, input, clock }: Noted): Order => ({
  ...{ id, command, input, clock, who: 'maker', device: 'phone' },
});

/** Without when it was recorded. */
function settled(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(settled);
  if (typeof value !== 'object' || value === null) return value;
  const told = Object.entries(value).filter(
    ([key, it]) => key !== 'recordedAt' && key !== 'report' && it !== undefined,
  );
  return Object.fromEntries(
    told.filter(([key]) => key !== 'from' && key !== 'to').map(([key, it]) => [key, settled(it)]),
  );
}

const PAGES = [
  '/api/reports/studio/firing?firing=G1',
  '/api/reports/studio/firing?firing=G2',
  `/api/reports/studio/piece?piece=${TILES}`,
  `/api/reports/studio/piece?piece=${JUG}`,
];

describe('a page told from the device', () => {
  test.each(PAGES)('is the studio’s own: %s', async (address) => {
    const here = await telling();
    expect(settled(await tellAnew(here, address))).toEqual(settled(await ask(address)));
  });

  test.each(PAGES)(
    'is what the studio would say once all that was noted is recorded: %s',
    async (address) => {
      const here = await telling();
      const grade = noted('piece.look-over', {
        piece: TILES,
        firing: 'G1',
        parts: [
          { count: 10, grade: 'first' },
          { count: 2, grade: 'second', faults: [{ kind: 'runs', zone: 'foot' }] },
        ],
      });
      const all = [
        noted('fault.find', { piece: JUG, kind: 'pinholes', zone: 'inside', firing: 'G2' }),
        grade,
        noted('entry.strike', { command: grade.id }),
        noted('piece.grade', { piece: TILES, first: 12, firing: 'G1' }),
        noted('firing.draw', { firing: 'G1', cones: [{ shelf: 1, cone: '6', bend: 'down' }] }),
      ];
      for (const order of all) expect(await here.ahead.note([order])).toEqual(['taken']);
      const told = settled(await tellAnew(here, address));
      for (const order of all) expect((await studio.host.record(asStudio(order))).outcome).toBe('recorded');
      expect(told).toEqual(settled(await ask(address)));
    },
  );

  test('is not told where the device does not keep it, nor as it was on a day', async () => {
    const here = await telling();
    expect(await tellAnew(here, '/api/reports/studio/firing?firing=NONE')).toBeUndefined();
    expect(await tellAnew(here, `${PAGES[0]}&as-at=2026-02-15`)).toBeUndefined();
  });
});

describe('an order decided ahead', () => {
  test('is refused with the studio’s own sentence, and nothing of it counts', async () => {
    const { ahead } = await telling();
    const order = noted('piece.leave', { piece: TILES, how: 'sold', count: 99 });
    const [ahead1] = await ahead.note([order]);
    const outcome = await studio.host.record(asStudio(order));
    expect(outcome).toMatchObject({ outcome: 'refused', refusal: ahead1 });
    expect(ahead.changed.size).toBe(0);
  });

  test('takes back the first of two when the second is refused', async () => {
    const { ahead } = await telling();
    const fault = noted('fault.find', { piece: JUG, kind: 'runs', firing: 'G2' });
    const grade = noted('piece.grade', { piece: JUG, first: 3, firing: 'G2' });
    const foreseen = await ahead.note([fault, grade]);
    expect(foreseen[1]).toMatchObject({ refused: true, code: 'too-many' });
    expect(ahead.changed.size).toBe(0);
    expect(await ahead.note([fault])).toEqual(['taken']);
  });

  test('is left to the studio where it rests on what is not kept here', async () => {
    const { ahead } = await telling();
    const elsewhere = '01980000-0000-7000-8000-00000000ffff';
    expect(
      await ahead.note([noted('piece.note', { piece: elsewhere, note: 'found behind the kiln' })]),
    ).toEqual(['unknown']);
    expect(await ahead.note([noted('order.pack', { order: 'A-1' })])).toEqual(['unknown']);
  });
});

describe('lists', () => {
  test('show what was noted: the grade, the drawn kiln, the piece begun', async () => {
    const here = await telling();
    const ware = await ask('/api/reports/studio/ware?limit=50');
    const firings = await ask('/api/reports/studio/firings?limit=40');
    const today = await ask('/api/waiting');
    const NEW = '01990000-0000-7000-8000-0000000000ee';
    await here.ahead.note([noted('piece.grade', { piece: JUG, second: 1, firing: 'G2' })]);
    await here.ahead.note([noted('firing.draw', { firing: 'G2' })]);
    await here.ahead.note([noted('piece.begin', { piece: NEW, form: 'bowl', mark: 'BOWL-1' })]);
    const rows = async (address: string, answer: unknown) =>
      ((await carryOn(here, address, answer)) as { rows: Record<string, unknown>[] }).rows;
    const shown = await rows('/api/reports/studio/ware?limit=50', ware);
    expect(shown.find(({ piece }) => piece === JUG)).toMatchObject({ stage: 'graded', grade: 'second' });
    expect(shown.find(({ piece }) => piece === NEW)).toMatchObject({ mark: 'BOWL-1', form: 'bowl' });
    const kilns = await rows('/api/reports/studio/firings?limit=40', firings);
    expect(kilns.find(({ firing }) => firing === 'G2')).toMatchObject({ state: 'drawn' });
    const waits = (await carryOn(here, '/api/waiting', today)) as { told: { rows: { to: string }[] }[] };
    expect(JSON.stringify(today)).toContain('/kilns/G2');
    expect(waits.told.flatMap((it) => it.rows.map(({ to }) => to))).not.toContain('/kilns/G2');
    expect(waits.told.flatMap((it) => it.rows.map(({ to }) => to))).toContain('/kilns/G1');
  });
});

describe('the kept day', () => {
  test('is brought up with what is new, and not fetched whole again', async () => {
    await telling();
    asked = [];
    await studio.tell(done('2026-03-06', 'fault.find', { piece: JUG, kind: 'runs' }));
    await telling();
    expect(asked.filter((address) => address.startsWith('/api/streams'))).toEqual([]);
    expect((await kept.entries()).at(-1)).toMatchObject({ name: 'fault.found' });
  });

  test('lets go of names and answers when somebody is forgotten', async () => {
    const { names } = await telling();
    expect(names).toEqual({ 'student-1': 'Ida Fennimore' });
    await kept.keepAnswer({
      address: '/api/reports/studio/people',
      at: 1,
      answer: { rows: ['Ida Fennimore'] },
    });
    await studio.host.forget('student-1', {
      id: '01990000-0000-7000-8000-0000000000aa',
      who: 'maker',
      device: 'laptop',
    });
    const after = await telling();
    expect(JSON.stringify(after.names)).not.toContain('Ida');
    expect(await kept.answer('/api/reports/studio/people')).toBeUndefined();
  });

  test('is fetched anew when the studio was brought back from a backup', async () => {
    await telling();
    const other = await studioHost();
    await other.tell(...glazeFiredTiles);
    const before = studio;
    studio = other;
    const { streams } = await telling();
    expect(streams).not.toContain(`piece:${JUG}`);
    expect((await kept.entries()).some((entry) => entry.streams.includes(`piece:${JUG}`))).toBe(false);
    await before.close();
  });
});
