/**
 * A thousand entries noted offline on two phones, sent over a line that is cut off half-way fifty times,
 * with requests that come late, in any order and again: the studio ends as if all had been noted in order.
 */
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Entry } from '../../server/contract/entry.ts';
import { stateOf } from '../../server/host/fold.ts';
import type { Order } from '../../server/host/host.ts';
import { done } from '../support/given.ts';
import { askApp, Device, type Fetch } from '../support/offline.ts';
import { LOTS, lotId, type Step, stepsOf } from '../support/offline-plan.ts';
import { seeded } from '../support/seeded.ts';
import { type StudioHost, studioHost } from '../support/studio-host.ts';
import { begin, fired, materials } from '../support/yard.ts';

const SEED = 20_261_125;
/** Of so many steps a thousand and a few can happen. */
const STEPS = 1_250;
const CUTS = 50;
/** The phones were offline from here on; a second between two entries. */
const MORNING = Date.parse('2026-06-29T08:00:00Z');
const momentOf = (n: number): number => MORNING + n * 1_000;
/** Its clock is three hours fast and stands in another zone; the other one's is right. */
const FAST = 3 * 3_600_000;

const yard = [
  ...materials,
  ...Array.from({ length: LOTS }, (_, n) => begin(lotId(n), 4, '2026-05-01')).map((it, n) =>
    'input' in it ? done('2026-05-01', 'piece.begin', { ...(it.input as object), mark: `LOT-${n}` }) : it,
  ),
  ...fired(
    'B1',
    'bisque',
    Array.from({ length: LOTS }, (_, n) => lotId(n)),
    '2026-05-10',
  ),
  done('2026-05-10', 'firing.draw', { firing: 'B1' }),
  ...fired(
    'G1',
    'glaze',
    Array.from({ length: LOTS }, (_, n) => lotId(n)),
    '2026-05-20',
  ),
];

let inOrder: StudioHost;
let studio: StudioHost;
let plan: readonly Planned[];
beforeAll(async () => {
  inOrder = await studioHost();
  studio = await studioHost();
  await inOrder.tell(...yard);
  await studio.tell(...yard);
  plan = await possible();
});
afterAll(async () => {
  await inOrder.close();
  await studio.close();
});

interface Planned extends Step {
  /** When it was noted. */
  readonly at: number;
}

/** The steps that can happen, recorded in order as they would have been with the network there. */
async function possible(): Promise<readonly Planned[]> {
  const steps = stepsOf(SEED, STEPS).map((step, n): Planned => ({ ...step, at: momentOf(n) }));
  const outcomes = await inOrder.host.recordAll(
    steps.map(
      ({ device, id, command, input, at }): Order => ({
        ...{ id, command, input, who: 'maker', device: `phone-${device}` },
        clock: new Date(at).toISOString(),
      }),
    ),
  );
  return steps.filter((_, n) => outcomes[n]!.outcome === 'recorded');
}

/** A line over which requests are cut off before, within or after they are taken, and come again later. */
function badLine(app: Fetch, chance: () => number) {
  const late: { address: string; init: RequestInit }[] = [];
  let cuts = 0;
  const cut = () => {
    cuts += 1;
    return new TypeError('the network is gone');
  };
  const fetch: Fetch = async (address, init = {}) => {
    const again = { address, init: { ...init, signal: undefined } };
    if (chance() < 0.5) late.push(again);
    const roll = cuts < CUTS ? chance() : 1;
    if (roll < 0.15) throw cut();
    if (roll < 0.8) {
      // The studio was stopped half-way through.
      const { commands } = JSON.parse(String(init.body)) as { commands: readonly object[] };
      const some = commands.slice(0, Math.floor(chance() * Math.min(30, commands.length + 1)));
      await app(address, { ...again.init, body: JSON.stringify({ commands: some }) });
      throw cut();
    }
    const answer = await app(address, again.init);
    if (roll < 0.9) throw cut();
    return answer;
  };
  /** What was thought lost comes after all, in any order. */
  const deliverLate = async (share: number) => {
    for (const request of [...late])
      if (chance() < share) {
        late.splice(late.indexOf(request), 1);
        await app(request.address, request.init);
      }
  };
  return { fetch, deliverLate, cuts: () => cuts };
}

/** Without what depends on the order in which it was written down. */
function settled(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(settled);
  if (typeof value !== 'object' || value === null) return value;
  const kept = Object.entries(value).filter(([key]) => !['seq', 'changedSeq', 'hash'].includes(key));
  return Object.fromEntries(kept.map(([key, it]) => [key, settled(it)]));
}

async function standing({ host }: StudioHost) {
  const entries = await host.log.read(0, 1_000_000);
  const byStream = new Map<string, Entry[]>();
  for (const entry of entries)
    for (const stream of entry.streams) byStream.set(stream, [...(byStream.get(stream) ?? []), entry]);
  const states = [...byStream].map(
    ([stream, its]) => [stream, settled(stateOf(stream, its, host.registry))] as const,
  );
  const commands = new Map<string, number>();
  for (const { command } of entries) commands.set(command, (commands.get(command) ?? 0) + 1);
  return { states: new Map(states.sort(([a], [b]) => (a < b ? -1 : 1))), commands };
}

test('a thousand entries of two phones, shuffled, repeated and cut off fifty times', {
  timeout: 120_000,
}, async () => {
  expect(plan.length).toBeGreaterThanOrEqual(1_000);
  const chance = seeded(SEED + 1);
  const seen = (await studio.host.log.head()).count;
  let now = momentOf(2_000);
  const devices = [new Device('phone-0', () => now, seen), new Device('phone-1', () => now + FAST, seen)];
  for (const step of plan) {
    await devices[step.device]!.note(step, step.at + (step.device === 1 ? FAST : 0));
  }

  now = Date.parse('2026-06-30T12:00:00Z');
  const line = badLine(askApp(studio), chance);
  let count = seen;
  for (let turn = 0; turn < 2_000; turn++) {
    const device = devices[chance() < 0.5 ? 0 : 1]!;
    await device.send(line.fetch, () => count);
    count = (await studio.host.log.head()).count;
    await line.deliverLate(0.1);
    const left = await Promise.all(devices.map((it) => it.store.all()));
    if (left.flat().length === 0) break;
  }
  await line.deliverLate(1);

  expect(
    (await Promise.all(devices.map((it) => it.store.all())))
      .flat()
      .map((it) => [it.id, it.refused?.sentence]),
  ).toEqual([]);
  expect(line.cuts()).toBe(CUTS);
  const [here, there] = [await standing(studio), await standing(inOrder)];
  expect(here.commands).toEqual(there.commands);
  expect(here.states).toEqual(there.states);
});
